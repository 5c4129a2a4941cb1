import { describe, expect, test } from "vitest";
import type { DrydownRequest } from "../../../model/drying/request.ts";
import { drydownWithOdds, weatherDraws } from "../../../model/odds/index.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import type { WeatherSeries } from "../../../model/weather/series.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const weather = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 96);
const request: DrydownRequest = {
  weather,
  swath: {
    crop: "alfalfa",
    dryMatterTHa: 3.5,
    initialMoistureWb: 0.79,
    conditioning: "roll",
    coveredFraction: 0.6,
    stubbleCm: 8,
    soil: "dry",
  },
  cutUtc: "2026-07-01T15:00:00Z",
  targetsWb: [0.5, 0.2],
  draws: 60,
};

function ask(change: Partial<DrydownRequest> = {}) {
  const outcome = drydownWithOdds({ ...request, ...change });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

function oddsOf(change: Partial<DrydownRequest> = {}) {
  const { odds } = ask(change);
  if (odds === undefined) throw new Error("odds were asked for");
  return odds;
}

const READING = { atUtc: "2026-07-02T00:00:00Z", method: "oven" as const };

describe("the odds of a course", () => {
  test("bands lie in order on the hours of the course, and chance and never add to 1", () => {
    const answer = ask();
    const { moistureWb, targets } = oddsOf();
    expect(moistureWb.p50).toHaveLength(answer.hours.startUtc.length);
    moistureWb.p50.forEach((middle, i) => {
      expect(moistureWb.p10[i]).toBeLessThanOrEqual(moistureWb.p25[i] as number);
      expect(moistureWb.p25[i]).toBeLessThanOrEqual(middle);
      expect(middle).toBeLessThanOrEqual(moistureWb.p75[i] as number);
      expect(moistureWb.p75[i]).toBeLessThanOrEqual(moistureWb.p90[i] as number);
    });
    for (const { chance, neverShare } of targets) expect(chance + neverShare).toBeCloseTo(1, 12);
  });

  test("the same seed gives the same odds, another gives others; no draws, no odds", () => {
    expect(oddsOf()).toEqual(oddsOf());
    expect(oddsOf({ seed: 2 }).moistureWb).not.toEqual(oddsOf().moistureWb);
    expect(ask({ draws: 0 }).odds).toBeUndefined();
  });

  test("a single forecast is widened and says so; an archive is known; members are used", () => {
    expect(oddsOf().weather).toBe("widened");
    expect(oddsOf().text).toContain("assumed table");
    expect(oddsOf({ weather: { ...weather, origin: "archive" } }).weather).toBe("known");
    const members = [{ rainMm: weather.hours.rainMm }, { rainMm: weather.hours.rainMm.map(() => 1) }];
    const odds = oddsOf({ weather: { ...weather, members } });
    expect(odds).toMatchObject({ weather: "members", members: 2, leftOut: 0 });
    // Half of the weathers rain in every hour: no more than the other half gets dry.
    expect(odds.targets[1]?.chance).toBeLessThanOrEqual(0.5);
  });

  test("hours marked as observed are no forecast, whenever the rest was issued", () => {
    const marked = (until: number): WeatherSeries => ({
      ...weather,
      issuedUtc: weather.hours.startUtc[0],
      marks: { airTempC: weather.hours.airTempC.map((_, i) => (i < until ? "observed" : "forecast")) },
    });
    const drawsOf = (series: WeatherSeries) => {
      const prepared = prepareWeather(series);
      if (!prepared.ok) throw new Error("the spell must be usable");
      return { main: prepared.value.weather, ...weatherDraws(series, prepared.value, null, 1) };
    };
    const { main, of } = drawsOf(marked(48));
    for (const i of [0, 1, 2]) {
      expect(of(i).airTempC.subarray(0, 48)).toEqual(main.airTempC.subarray(0, 48));
      expect(of(i).airTempC.subarray(48)).not.toEqual(main.airTempC.subarray(48));
    }
    expect(drawsOf(marked(96)).kind).toBe("known");
    // Issued after the last measured hour: the issue stands.
    const later = drawsOf({ ...marked(12), issuedUtc: weather.hours.startUtc[24] });
    expect(later.of(0).airTempC.subarray(0, 24)).toEqual(later.main.airTempC.subarray(0, 24));
    // Members leave what was measured alone too.
    const wet = { rainMm: weather.hours.rainMm.map(() => 1) };
    const { marks } = marked(48);
    const members = drawsOf({
      ...weather,
      marks: { ...marks, rainMm: marks?.airTempC ?? [] },
      members: [wet, {}],
    });
    expect(members.of(0).rainMm.subarray(0, 48)).toEqual(members.main.rainMm.subarray(0, 48));
    expect(members.of(0).rainMm[48]).toBe(1);
  });

  test("a chance never falls when a wet member is made dry", () => {
    const dry = { rainMm: weather.hours.rainMm };
    const wet = { rainMm: weather.hours.rainMm.map((_, i) => (i > 20 && i < 60 ? 1 : 0)) };
    const chances = [0, 1, 2, 3].map((dryOnes) => {
      const members = [0, 1, 2].map((i) => (i < dryOnes ? dry : wet));
      return oddsOf({ weather: { ...weather, members } }).targets[1]?.chance as number;
    });
    for (const [i, chance] of chances.entries()) expect(chance).toBeGreaterThanOrEqual(chances[i - 1] ?? 0);
  });

  test("a member that ends early is left out and counted", () => {
    const short = { rainMm: weather.hours.rainMm.map((mm, i) => (i > 60 ? null : mm)) };
    const series: WeatherSeries = { ...weather, members: [{ rainMm: weather.hours.rainMm }, short] };
    const prepared = prepareWeather(series);
    if (!prepared.ok) throw new Error("usable");
    expect(weatherDraws(series, prepared.value, null, 1)).toMatchObject({ members: 1, leftOut: 1 });
  });
});

describe("readings", () => {
  test("a wet reading delays the target, narrows the bands and teaches a slower rate, in a sentence", () => {
    const before = oddsOf();
    const after = oddsOf({ readings: [{ ...READING, moistureWb: 0.48 }] });
    const change = after.readings?.changes[1];
    expect(change?.afterHours).toBeGreaterThan(change?.beforeHours as number);
    expect(change?.text).toMatch(
      /^20 % is now due 2026-07-\d\dT\d\d:\d\d:00Z \([\d.]+ h after cutting\), \d+ (h|min) later than before the reading\.$/,
    );
    // The hours told are those of the course itself, which a board's row goes by: one thing has one day.
    const reading = { ...READING, moistureWb: 0.48 };
    for (const [i, one] of (after.readings?.changes ?? []).entries()) {
      const [was, now] = [ask(), ask({ readings: [reading] })].map(({ targets }) => targets[i]);
      expect(one.beforeHours).toBe(was?.reached ? was.elapsedHours : null);
      expect(one.afterHours).toBe(now?.reached ? now.elapsedHours : null);
    }
    expect(after.readings?.beforeWb).toEqual(ask().hours.moistureWb);
    expect(after.readings?.learned?.rateLnMean).toBeLessThan(0);
    const width = ({ moistureWb }: typeof before, i: number) =>
      (moistureWb.p90[i] as number) - (moistureWb.p10[i] as number);
    expect(width(after, 8)).toBeLessThan(width(before, 8));
    expect(after.readings?.effectiveSize).toBeLessThan(after.readings?.of ?? 0);
    expect(ask({ readings: [{ ...READING, moistureWb: 0.48 }] }).hours.moistureWb[8]).toBeGreaterThan(
      ask().hours.moistureWb[8] as number,
    );
  });

  test("a moisture that the last reading was above is reached only after it, though a course had come to it before", () => {
    // Three dry days, then rain all through the night: the swath is wet again on the fourth morning. Invented.
    const rainMm = Object.fromEntries(Array.from({ length: 8 }, (_, i) => [72 + i, 2]));
    const rained = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 192, { rainMm });
    const series: WeatherSeries = { ...rained, origin: "archive" };
    const asked = { weather: series, targetsWb: [0.3], draws: 40 };
    const readUtc = "2026-07-04T14:00:00Z";
    const lies = oddsOf(asked);
    const wet = lies.moistureWb.p50[
      (Date.parse(readUtc) - Date.parse("2026-07-01T16:00:00Z")) / 3_600_000
    ] as number;
    expect(wet).toBeGreaterThan(0.32);
    const readH = (Date.parse(readUtc) - Date.parse(request.cutUtc)) / 3_600_000;
    expect(lies.targets[0]?.elapsedHours.p50).toBeLessThan(readH);
    const reading = { atUtc: readUtc, method: "oven" as const, moistureWb: wet };
    const read = oddsOf({ ...asked, readings: [reading] });
    expect(read.readings?.readings[0]?.used).toBe(true);
    expect(read.targets[0]?.elapsedHours.p10).toBeGreaterThan(readH);
    // One that was down to it by the reading stays.
    const dry = oddsOf({ ...asked, targetsWb: [0.75], readings: [reading] });
    expect(dry.targets[0]?.elapsedHours.p90).toBeLessThan(readH);
  });

  test("a reading that contradicts every draw is questioned, and changes nothing", () => {
    const { odds, hours } = ask({
      readings: [{ atUtc: "2026-07-03T19:00:00Z", method: "oven", moistureWb: 0.9 }],
    });
    expect(odds?.readings?.readings[0]).toMatchObject({ used: false });
    expect(odds?.readings?.readings[0]?.text).toContain("not used");
    expect(odds?.readings?.learned).toBeNull();
    expect(odds?.readings?.changes).toEqual([]);
    expect(hours).toEqual(ask().hours);
  });

  test("a lone odd reading leaves its own course as it was; once confirmed it bends it, and still teaches no other cut", () => {
    const far = { ...READING, moistureWb: (oddsOf().moistureWb.p50[8] as number) - 0.31 };
    const lone = ask({ readings: [far] });
    const [told] = lone.odds?.readings?.readings ?? [];
    expect(told).toMatchObject({ used: false, verdict: "questioned" });
    expect(told?.asFarChance).toBeLessThan(0.005);
    expect(told?.nearestSigmas).toBeLessThan(5);
    expect(told?.text).toMatch(
      /all stays as it was.*confirm it.*by another method, or once the crop has dried 3 points/,
    );
    expect(lone.hours).toEqual(ask().hours);
    const sure = ask({ readings: [{ ...far, confirmed: true }] });
    expect(sure.odds?.readings?.readings[0]).toMatchObject({ used: true, verdict: "confirmed" });
    expect(sure.hours.moistureWb[8]).toBeLessThan(lone.hours.moistureWb[8] as number);
    expect(sure.odds?.readings?.learned).toBeNull();
  });

  test("a reading that hardly any draw agrees with counts in part: bands stay bands, and it is said", () => {
    const far = { ...READING, moistureWb: (oddsOf().moistureWb.p50[8] as number) - 0.2 };
    const { moistureWb, readings, draws } = oddsOf({ readings: [far] });
    expect(readings?.readings[0]?.used).toBe(true);
    expect(readings?.effectiveSize).toBeGreaterThan(19);
    expect(readings?.countedShare).toBeLessThan(1);
    expect(readings?.fewAgree).toMatch(/^Hardly any of the 240 drawn courses agrees .* Measure again/);
    expect(draws).toBe(60);
    const [p10, p50, p75, p90] = [moistureWb.p10, moistureWb.p50, moistureWb.p75, moistureWb.p90].map(
      (band) => band[8] as number,
    ) as [number, number, number, number];
    expect(p75).toBeGreaterThan(p50);
    expect(p90).toBeGreaterThan(p75);
    expect(p90 - p10).toBeGreaterThan(0.02);
    const central = ask({ readings: [far] }).hours.moistureWb[8] as number;
    expect(central).toBeGreaterThan(p10);
    expect(central).toBeLessThan(p90);
    expect(oddsOf({ readings: [{ ...READING, moistureWb: 0.48 }] }).readings?.fewAgree).toBeNull();
  });

  test("a reading that hardly any draw agrees with teaches other cuts only once a second one bears it out", () => {
    const at = (hour: number, off: number) => ({
      atUtc: new Date(Date.parse("2026-07-01T16:00:00Z") + hour * 3_600_000).toISOString(),
      method: "oven" as const,
      moistureWb: (oddsOf().moistureWb.p50[hour] as number) + off,
    });
    const lone = oddsOf({ readings: [at(8, -0.2)] });
    expect(lone.readings?.learned).toBeNull();
    expect(lone.readings?.fewAgree).toContain("Other cuts go by it once a second reading bears it out.");
    // The row of its own cut still bends.
    expect(lone.moistureWb.p50[8]).toBeLessThan((oddsOf().moistureWb.p50[8] as number) - 0.03);
    const borneOut = oddsOf({ readings: [at(7, -0.18), at(8, -0.2)] }).readings;
    expect(borneOut?.countedShare).toBeLessThan(1);
    expect(borneOut?.learned?.rateLnMean).toBeGreaterThan(0);
    // Where hardly any draw agrees the rate is no surer than before.
    expect(borneOut?.learned?.rateLnSd).toBeGreaterThan(0.9 * (lone.rate.lnSd ?? 9));
    expect(borneOut?.fewAgree).not.toContain("Other cuts");
    // What an earlier reading taught that counted whole stays.
    const first = oddsOf({ readings: [at(4, 0)] }).readings?.learned;
    const slipped = oddsOf({ readings: [at(4, 0), at(8, -0.13)] }).readings;
    expect(slipped?.readings.map(({ verdict }) => verdict)).toEqual(["fits", "questioned"]);
    expect(slipped?.learned).toEqual(first);
  });

  test("of two readings at one time that exclude each other the second is questioned", () => {
    const middle = oddsOf().moistureWb.p50[8] as number;
    const two = [middle - 0.08, middle + 0.14].map((wb) => ({ ...READING, moistureWb: wb }));
    const told = oddsOf({ readings: two }).readings?.readings;
    expect(told?.map(({ used }) => used)).toEqual([true, false]);
    expect(told?.[1]?.text).toContain("that the readings before it left");
  });

  test("a course of a few draws says that they are few", () => {
    expect(oddsOf({ draws: 1 }).text).toMatch(/One draw alone does not show how far it may turn/);
    expect(oddsOf({ draws: 40 }).text).not.toContain("so few");
  });

  test("a questioned reading leaves every number as it is without it, alone or beside one that counts", () => {
    const untold = ({ odds, ...answer }: ReturnType<typeof ask>) => ({
      ...answer,
      odds: { ...odds, readings: null },
    });
    const odd = { atUtc: "2026-07-02T14:00:00Z", method: "oven" as const, moistureWb: 0.91 };
    const lone = ask({ readings: [odd] });
    expect(lone.odds?.readings?.readings.map(({ used }) => used)).toEqual([false]);
    expect(lone.odds?.readings).toMatchObject({ learned: null, collapsed: false, countedShare: 1 });
    expect(untold(lone)).toEqual(untold(ask()));
    const fits = { ...READING, moistureWb: 0.48 };
    const both = ask({ readings: [odd, fits] });
    // In the order of time, the questioned one after.
    expect(both.odds?.readings?.readings.map(({ used }) => used)).toEqual([true, false]);
    const alone = ask({ readings: [fits] });
    expect(untold(both)).toEqual(untold(alone));
    const { learned, effectiveSize, changes } = alone.odds?.readings ?? {};
    expect(both.odds?.readings).toMatchObject({ learned, effectiveSize, changes });
  });

  test("ten readings of one spot a minute apart tell as much as one by their mean, hardly more", () => {
    const middle = oddsOf().moistureWb.p50[8] as number;
    const probe = (minute: number, place = "") => ({
      atUtc: `2026-07-02T00:${String(10 + minute)}:00Z`,
      method: "windrow-probe" as const,
      moistureWb: middle - 0.02,
      ...(place === "" ? {} : { place }),
    });
    const widthOf = (readings: readonly ReturnType<typeof probe>[]) =>
      oddsOf({ readings, draws: 200 }).readings?.learned?.rateLnSd ?? Number.NaN;
    const ten = Array.from({ length: 10 }, (_, i) => i);
    const [once, often, apart] = [
      widthOf([probe(0)]),
      widthOf(ten.map((i) => probe(i))),
      widthOf(ten.map((i) => probe(i, `place ${i}`))),
    ];
    expect(often / once).toBeGreaterThan(0.85);
    expect(often).toBeLessThan(once);
    // Places of their own tell more of the field's mean.
    expect(apart).toBeLessThan(often);
    const told = oddsOf({ readings: [probe(0), probe(1)] }).readings?.readings;
    expect(told?.[0]?.text).not.toContain("Taken again");
    expect(told?.[1]?.text).toContain("Taken again within 2 h: together they count as one, by their mean.");
  });

  test("a hand squeeze is an interval; what was learned is the next prior, and fades", () => {
    const squeezed = oddsOf({ readings: [{ ...READING, method: "hand-squeeze", range: [0.5, 0.6] }] });
    expect(squeezed.readings?.readings[0]?.used).toBe(true);
    const learned = { rateLnMean: -0.3, rateLnSd: 0.06, atUtc: "2026-07-01T15:00:00Z" };
    const next = oddsOf({ learned });
    expect(next.rate.lnMean).toBeCloseTo(-0.3, 6);
    const faded = oddsOf({ learned: { ...learned, atUtc: "2026-06-10T15:00:00Z" } });
    expect(faded.rate.lnMean).toBeCloseTo(-0.15, 6);
    expect(faded.rate.lnSd).toBeGreaterThan(next.rate.lnSd);
  });

  test("what is told as issued knows no weather of before the reading, whether an issue time is given or not", () => {
    const readings = [{ atUtc: "2026-07-02T20:00:00Z", method: "oven" as const, moistureWb: 0.4 }];
    const widthOf = (issuedUtc: string | null) => {
      const bands = oddsOf({ readings, draws: 40, weather: { ...weather, issuedUtc } }).readings?.asIssued[0]
        ?.bandsWb;
      return (bands?.p90 ?? 0) - (bands?.p10 ?? 0);
    };
    const told = widthOf(weather.hours.startUtc[0] ?? null);
    expect(Math.abs(widthOf(null) / told - 1)).toBeLessThan(0.35);
    expect(widthOf(null)).toBeGreaterThan(widthOf(readings[0]?.atUtc ?? null));
  });

  test("a reading before the cut, or without a number, is refused by its field", () => {
    const early = drydownWithOdds({
      ...request,
      readings: [{ atUtc: "2026-07-01T10:00:00Z", method: "oven", moistureWb: 0.5 }],
    });
    expect(early.ok ? [] : early.issues[0]).toMatchObject({
      path: "readings[0].atUtc",
      code: "outside-course",
    });
    const empty = drydownWithOdds({ ...request, readings: [READING] });
    expect(empty.ok ? [] : empty.issues[0]).toMatchObject({ path: "readings[0]", code: "one-of" });
  });
});
