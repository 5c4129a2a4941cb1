import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CROPS } from "../../../../model/drying/keys.ts";
import { groundOf } from "../../../../model/harvest/drying-store.ts";
import { waitList } from "../../../../model/harvest/hazards/hazard-words.ts";
import {
  daysSinceRestart,
  dullSpells,
  FROST_WAIT_DAYS,
  frosts,
  growthRains,
  type HazardQuestion,
  hazardCalendar,
  hazardsAt,
  LEAST_HEIGHT_CM,
  NITRATE_ACCUMULATORS,
  NITRATE_CLOCK,
  PRUSSIC_CROPS,
  restartRains,
  wetSoilSpells,
} from "../../../../model/harvest/hazards/index.ts";
import { ROUTES } from "../../../../model/harvest/keys.ts";
import { DAY_MS, HOUR_MS } from "../../../../model/weather/clock.ts";
import type { HourlyWeather } from "../../../../model/weather/hourly.ts";

const START = Date.UTC(2026, 7, 1);

/** Plain weather by the hour: 20 °C, clear, dry, light from 6 to 20 UTC, but for what is given by index. */
function weatherOf(
  hours: number,
  given: {
    readonly rainMm?: Record<number, number>;
    readonly airTempC?: Record<number, number>;
    readonly cloudFrac?: (i: number) => number;
  } = {},
): HourlyWeather {
  const column = (value: (i: number) => number) => Float64Array.from({ length: hours }, (_, i) => value(i));
  return {
    site: { latitude: 44, longitude: 0, elevationM: 100, timeZone: "UTC" },
    startUtcMs: START,
    count: hours,
    airTempC: column((i) => given.airTempC?.[i] ?? 20),
    vapourPressureKPa: column(() => 1),
    wind2mMps: column(() => 2),
    solarWm2: column(() => 300),
    cloudFrac: column(given.cloudFrac ?? (() => 0)),
    rainMm: column((i) => given.rainMm?.[i] ?? 0),
    pressureKPa: column(() => 100),
    daylight: Uint8Array.from({ length: hours }, (_, i) => (i % 24 >= 6 && i % 24 < 20 ? 1 : 0)),
  };
}

const day = (n: number) => n * 24;
const ASKED: HazardQuestion = {
  crop: "forage-sorghum",
  route: "grazing",
  drought: true,
  regrowthCm: null,
  maxRainMm24h: 10,
};
const of = (weather: HourlyWeather, code: string, asked: Partial<HazardQuestion> = {}) =>
  hazardCalendar(weather, { ...ASKED, ...asked }).filter((span) => span.code === code);
const inDays = (ms: number) => (ms - START) / DAY_MS;

describe("rain after drought", () => {
  const weather = weatherOf(day(25), { rainMm: { 48: 3, 49: 4 } });

  test("waits 5 days from its end, with caution to the 14th; days are counted", () => {
    const [wait] = of(weather, "nitrate-after-rain");
    expect(wait?.level).toBe("wait");
    expect(inDays(wait?.startUtcMs ?? 0)).toBeCloseTo(49 / 24, 9);
    expect(inDays(wait?.endUtcMs ?? 0)).toBeCloseTo(50 / 24 + 5, 9);
    const [late] = of(weather, "nitrate-after-rain-late");
    expect(late?.level).toBe("caution");
    expect(late?.startUtcMs).toBe(wait?.endUtcMs);
    expect(inDays(late?.endUtcMs ?? 0)).toBeCloseTo(50 / 24 + 14, 9);
    const restarts = restartRains(growthRains(weather), true);
    expect(daysSinceRestart(restarts, START + 50 * HOUR_MS + 3 * DAY_MS)).toBe(3);
    expect(daysSinceRestart(restarts, START)).toBeNull();
  });

  test("a shower under the amount starts nothing; a crop that was not dry, nothing; unknown counts as dry and says so", () => {
    expect(of(weatherOf(day(5), { rainMm: { 30: 5 } }), "nitrate-after-rain")).toEqual([]);
    expect(of(weather, "nitrate-after-rain", { drought: false })).toEqual([]);
    const [unknown] = of(weather, "nitrate-after-rain", { drought: null });
    expect(unknown?.text).toMatch(/if the crop was short of water before/);
    expect(unknown?.startUtcMs).toBe(of(weather, "nitrate-after-rain")[0]?.startUtcMs);
  });

  test("each further rain sets the clock back; two dry weeks in the weather are a drought by themselves", () => {
    const twice = weatherOf(day(30), { rainMm: { 48: 8, [day(5)]: 8 } });
    const waits = of(twice, "nitrate-after-rain");
    expect(waits).toHaveLength(1);
    expect(inDays(waits[0]?.endUtcMs ?? 0)).toBeCloseTo(5 + 1 / 24 + 5, 9);
    const later = weatherOf(day(40), { rainMm: { 48: 8, [day(20)]: 8 } });
    const waited = of(later, "nitrate-after-rain", { drought: false });
    expect(waited.map(({ startUtcMs }) => inDays(startUtcMs))).toEqual([20]);
  });

  test("crops that gather no nitrate have no such span; millet has no prussic one", () => {
    for (const crop of CROPS) {
      const codes = hazardCalendar(weather, { ...ASKED, crop }).map(({ code }) => code);
      expect(codes.some((code) => code.startsWith("nitrate"))).toBe(NITRATE_ACCUMULATORS.includes(crop));
      expect(codes.some((code) => code.startsWith("prussic"))).toBe(PRUSSIC_CROPS.includes(crop));
    }
  });
});

describe("frost", () => {
  const weather = weatherOf(day(20), { airTempC: { 28: -0.5, 29: -3, 30: -3, 31: -3, [day(4) + 5]: -0.2 } });

  test("killing or light, one spell a night", () => {
    const found = frosts(weather);
    expect(found.map(({ killing }) => killing)).toEqual([true, false]);
    expect(found[0]?.amount).toBe(-3);
  });

  test.each(ROUTES)("%s waits its days after the last of the frosts", (route) => {
    const spans = of(weather, "prussic-after-frost", { route });
    expect(spans.at(-1)?.endUtcMs).toBe(
      START + (day(4) + 6) * HOUR_MS + FROST_WAIT_DAYS[route].value * DAY_MS,
    );
    expect(spans.every(({ level }) => level === "wait")).toBe(true);
  });

  test("fermented routes are told the weeks as well; nitrate is highest on the fourth day", () => {
    expect(of(weather, "prussic-after-frost", { route: "wrapped-bales" })[0]?.text).toMatch(
      /ferment for 8 weeks/,
    );
    expect(of(weather, "nitrate-after-frost")[0]?.text).toMatch(/day 4/);
  });
});

test("new growth: two weeks after the rain, and under its height, for what is taken fresh", () => {
  const weather = weatherOf(day(25), { rainMm: { 24: 10 } });
  expect(of(weather, "prussic-regrowth")[0]?.level).toBe("wait");
  expect(of(weather, "prussic-regrowth", { route: "wilted-chop" })[0]?.level).toBe("caution");
  const least = LEAST_HEIGHT_CM["forage-sorghum"]?.value ?? 0;
  expect(of(weather, "prussic-short", { regrowthCm: least - 1 })[0]?.text).toMatch(/75 cm \(30 in\)/);
  expect(of(weather, "prussic-short", { regrowthCm: least })).toEqual([]);
});

test("two dull days, and not one; soft soil is the very hours that close a window", () => {
  const dull = weatherOf(day(6), { cloudFrac: (i) => (i >= day(1) && i < day(3) ? 1 : 0) });
  expect(dullSpells(dull)).toHaveLength(1);
  expect(dullSpells(weatherOf(day(6), { cloudFrac: (i) => (i < day(1) ? 1 : 0) }))).toEqual([]);
  const wet = weatherOf(day(4), { rainMm: { 30: 12 } });
  const { soilFit } = groundOf(wet, 10);
  const [spell] = wetSoilSpells(wet, 10);
  const hours = Array.from(soilFit.keys()).filter((i) => soilFit[i] === 0);
  expect(spell?.startUtcMs).toBe(START + (hours[0] ?? 0) * HOUR_MS);
  expect(spell?.endUtcMs).toBe(START + ((hours.at(-1) ?? 0) + 1) * HOUR_MS);
  expect(of(wet, "soil-too-wet", { route: "dry-hay" })[0]?.level).toBe("wait");
  expect(of(wet, "soil-too-wet", { route: "grazing" })[0]?.level).toBe("caution");
});

test("more rain never shortens the wait; spans lie in the weather, in order, each with a source; no word of safety", () => {
  const rains = fc.dictionary(
    fc.nat({ max: day(12) - 1 }).map(String),
    fc.double({ min: 0, max: 20, noNaN: true }),
    {
      maxKeys: 8,
    },
  );
  fc.assert(
    fc.property(rains, fc.nat({ max: day(12) - 1 }), fc.constantFrom(...ROUTES), (rainMm, hour, route) => {
      const base = weatherOf(day(12), { rainMm: rainMm as Record<number, number> });
      const more = weatherOf(day(12), { rainMm: { ...rainMm, [hour]: (rainMm[String(hour)] ?? 0) + 7 } });
      const waits = (weather: HourlyWeather) =>
        of(weather, "nitrate-after-rain", { route }).reduce((sum, s) => sum + s.endUtcMs - s.startUtcMs, 0);
      expect(waits(more)).toBeGreaterThanOrEqual(waits(base));
      const spans = hazardCalendar(more, { ...ASKED, route, drought: null });
      const starts = spans.map(({ startUtcMs }) => startUtcMs);
      expect(starts).toEqual(starts.toSorted((a, b) => a - b));
      for (const span of spans) {
        expect(span.startUtcMs).toBeGreaterThanOrEqual(START);
        expect(span.endUtcMs).toBeLessThanOrEqual(START + day(12) * HOUR_MS);
        expect(span.source.length).toBeGreaterThan(5);
        expect(span.text).not.toMatch(/\bsafe\b/i);
        expect(hazardsAt(spans, span.startUtcMs)).toContain(span);
        expect(hazardsAt([span], span.endUtcMs)).toEqual([]);
      }
    }),
    { numRuns: 60 },
  );
});

// Sources: Penn State 3-5 days, University of Illinois 5, Oklahoma State 7-10, Kansas State 7-14, Ohio State 7-14.
test("the published waits after rain, the strictest first and last", () => {
  const { firstDays, middleDays, longDays } = NITRATE_CLOCK;
  expect([firstDays.value, middleDays.value, longDays.value]).toEqual([5, 7, 14]);
  expect([FROST_WAIT_DAYS.grazing.value, FROST_WAIT_DAYS["wilted-chop"].value]).toEqual([7, 5]);
});

describe("the waits of a cut in a sentence", () => {
  const day = (utc: string) => utc.slice(0, 10);
  const one = (
    code: "nitrate-after-rain" | "soil-too-wet",
    untilUtc: string,
    level: "wait" | "caution" = "wait",
  ) => ({
    code,
    level,
    untilUtc,
  });

  test("each once with its latest end; cautions are no waits; what the weather cuts off is told as open", () => {
    const end = "2026-07-10T00:00:00Z";
    const hazards = [
      one("nitrate-after-rain", "2026-07-03T00:00:00Z"),
      one("nitrate-after-rain", "2026-07-05T00:00:00Z"),
      one("soil-too-wet", end),
    ];
    expect(waitList(hazards, end, day)).toBe(
      "nitrate after rain on a dry crop, until 2026-07-05; soft soil, past this weather",
    );
    expect(waitList([one("soil-too-wet", end, "caution")], end, day)).toBe("");
  });
});
