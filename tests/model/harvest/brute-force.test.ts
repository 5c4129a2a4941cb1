import fc from "fast-check";
import { expect, test } from "vitest";
import { runCourse } from "../../../model/drying/course.ts";
import { findWindowsWith } from "../../../model/harvest/board.ts";
import type { PlanStep, WindowsRequest } from "../../../model/harvest/request.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { dice, inventedCourse } from "../../reference/invented-course.ts";
import { type CourseFunction, type SlowPair, windowsByMinute } from "../../reference/windows-by-minute.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

/** Its clock changes by half an hour: back on 5 April 2026, forward on 4 October 2026. */
const LORD_HOWE = { latitude: -31.55, longitude: 159.08, elevationM: 5, timeZone: "Australia/Lord_Howe" };

const SPELLS = [
  { site: PLACES.southDakota, fromUtc: "2026-07-01T05:00:00Z" },
  { site: PLACES.india, fromUtc: "2026-04-10T00:00:00Z" },
  { site: PLACES.newZealand, fromUtc: "2026-01-05T11:00:00Z" },
  // Clocks go back on 5 April 2026 in New Zealand, forward on 29 March 2026 in Ireland.
  { site: PLACES.newZealand, fromUtc: "2026-04-03T11:00:00Z" },
  { site: PLACES.ireland, fromUtc: "2026-03-27T00:00:00Z" },
  { site: LORD_HOWE, fromUtc: "2026-04-03T13:00:00Z" },
  { site: LORD_HOWE, fromUtc: "2026-10-02T13:30:00Z" },
] as const;

const step: fc.Arbitrary<PlanStep> = fc.oneof(
  fc.record({
    kind: fc.constant("ted" as const),
    rule: fc.constant("morning-after" as const),
    hour: fc.nat(23),
  }),
  fc.record({
    kind: fc.constant("ted" as const),
    rule: fc.constant("after-cut" as const),
    hours: fc.nat(30),
  }),
  fc.record({
    kind: fc.constant("rake" as const),
    rule: fc.constant("before-window" as const),
    hours: fc.nat(4),
  }),
);
const treatment = (id: string) =>
  fc.record({
    id: fc.constant(id),
    conditioning: fc.constantFrom("none" as const, "roll" as const),
    coveredFraction: fc.constantFrom(0.4, 0.7, 0.9),
    stubbleCm: fc.constant(8),
    plan: fc.array(step, { maxLength: 2 }),
  });
const band = (lo: number, hi: number) => fc.constant([lo, hi] as const);

const question = fc.record({
  seed: fc.nat(1_000_000),
  spell: fc.constantFrom(...SPELLS),
  crop: fc.constantFrom("cool-season-grass" as const, "alfalfa" as const, "drought-corn" as const),
  wetness: fc.constantFrom(0, 0.02, 0.06),
  hours: fc.integer({ min: 60, max: 110 }),
  areaHa: fc.constantFrom(2, 5, 8.5, 14),
  mowHaPerH: fc.constantFrom(3, 4, 7),
  nowHour: fc.constantFrom(0, 0, 7.5, 20),
  cutHours: fc.constantFrom([9, 13], [2, 8, 17], [11], [22]),
  workHours: fc.constantFrom(
    { from: "07:00", to: "20:00" },
    { from: "06:30", to: "19:15" },
    { from: "00:00", to: "24:00" },
    { from: "19:00", to: "07:30" },
    { from: "10:00", to: "04:30" },
  ),
  treatments: fc
    .tuple(treatment("wide"), treatment("narrow"))
    .chain((all) => fc.constantFrom(all, all.slice(0, 1))),
  dryBand: fc.oneof(band(0.12, 0.16), band(0.1, 0.2), band(0.15, 0.3)),
  wrapBand: fc.oneof(band(0.4, 0.55), band(0.45, 0.5), band(0.5, 0.65)),
  haPerH: fc.constantFrom(1, 2.5, 6),
  maxRainMm24h: fc.constantFrom(2, 5, 10),
  standingWb: fc.constantFrom(0.6, 0.7, 0.72),
  dailyNeedKgDm: fc.constantFrom(900, 20_000, 100_000),
});
type Question = typeof question extends fc.Arbitrary<infer T> ? T : never;

function requestOf(q: Question): WindowsRequest {
  const rain = Array.from({ length: q.hours }, (_, i) => [i, dice(q.seed + 7, i)] as const)
    .filter(([, roll]) => roll < q.wetness)
    .map(([i]) => [i, Math.round(60 * dice(q.seed + 8, i)) / 10]);
  const weather = inventedSpell(q.spell.site, q.spell.fromUtc, q.hours, {
    rainMm: Object.fromEntries(rain),
    dewPointC: 6 + 10 * dice(q.seed + 9, 0),
  });
  const { haPerH } = q;
  return {
    weather,
    nowUtc: new Date(Date.parse(q.spell.fromUtc) + q.nowHour * 3_600_000).toISOString(),
    field: { areaHa: q.areaHa },
    swath: {
      crop: q.crop,
      dryMatterTHa: 3,
      initialMoistureWb: 0.78,
      conditioning: "roll",
      coveredFraction: 0.7,
      stubbleCm: 8,
      soil: "moist",
    },
    standing: { moistureWb: q.standingWb, dryDownPointsPerDay: 0.9, dailyNeedKgDm: q.dailyNeedKgDm },
    cutHours: q.cutHours,
    workHours: q.workHours,
    mowHaPerH: q.mowHaPerH,
    treatments: q.treatments,
    routes: [
      { route: "grazing" },
      { route: "dry-hay", bandWb: q.dryBand, haPerH },
      { route: "direct-chop", bandWb: [0.65, 0.7], haPerH },
      { route: "wilted-chop", bandWb: [0.5, 0.7], haPerH },
      { route: "green-chop", haPerH },
      { route: "wrapped-bales", bandWb: q.wrapBand, haPerH },
    ],
    soilCarry: { maxRainMm24h: q.maxRainMm24h },
    // Waits after rain and frost have tests of their own.
    hazards: { drought: false },
  };
}

/** The board's pairs, and the value by which it ranks each: the slow way takes that over. */
function quickBoard(request: WindowsRequest, course: CourseFunction) {
  const outcome = findWindowsWith({ course, opinions: () => [] }, request);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  const { options } = outcome.value;
  const values = new Map<string, number>(
    options.flatMap(({ id, routes }) =>
      routes.map(({ route, valuePerHa }) => [`${id} ${route}`, valuePerHa ?? 0] as const),
    ),
  );
  const pairs: SlowPair[] = options
    .flatMap((option) =>
      option.routes.map((route) => ({
        optionId: option.id,
        route: route.route,
        operations: route.operations.map(({ kind, atUtc }) => `${kind} ${atUtc}`),
        windows: route.windows.map(({ startUtc, endUtc, rainedOn }) => ({ startUtc, endUtc, rainedOn })),
        rank: route.rank,
      })),
    )
    .sort((a, b) => (a.optionId + a.route < b.optionId + b.route ? -1 : 1));
  return { pairs, worthOf: (optionId: string, route: string) => values.get(`${optionId} ${route}`) ?? 0 };
}

function agree(q: Question, course: CourseFunction): number {
  const request = requestOf(q);
  const prepared = prepareWeather(request.weather);
  if (!prepared.ok) throw new Error("the invented weather is refused");
  const quick = quickBoard(request, course);
  const slow = windowsByMinute(request, prepared.value.weather, course, quick.worthOf);
  expect(quick.pairs).toEqual(slow);
  return slow.filter(({ rank }) => rank !== null).length;
}

test("windows and ranking agree with every minute asked one by one, on random weather and courses", () => {
  let ranked = 0;
  fc.assert(
    fc.property(question, (q) => {
      ranked += agree(q, inventedCourse(q.seed));
    }),
    { seed: 20260701, numRuns: 40, interruptAfterTimeLimit: 15_000 },
  );
  // A comparison of boards without windows would prove nothing.
  expect(ranked).toBeGreaterThan(100);
}, 60_000);

test("they agree on the drying model's own courses too", () => {
  let ranked = 0;
  fc.assert(
    fc.property(question, (q) => {
      ranked += agree(q, runCourse);
    }),
    { seed: 4, numRuns: 10, interruptAfterTimeLimit: 8_000 },
  );
  expect(ranked).toBeGreaterThan(20);
}, 60_000);

/** Every window of a route, as the slow board has it. */
const windowsOfRoute = (pairs: readonly SlowPair[], route: string) =>
  pairs.filter((pair) => pair.route === route).flatMap(({ windows }) => windows);

test("they agree where a legume dries past the foot of its band and is baled in the damp of night and morning", () => {
  let dampWindows = 0;
  fc.assert(
    fc.property(question, fc.constantFrom(-3, 0, 3), fc.constantFrom(0.13, 0.15), (q, dewPointC, footWb) => {
      const dry: Question = {
        ...q,
        crop: "alfalfa",
        wetness: 0,
        hours: 110,
        areaHa: 2,
        haPerH: 2.5,
        dryBand: [footWb, footWb + 0.05],
      };
      const plain = requestOf(dry);
      const request: WindowsRequest = {
        ...plain,
        weather: inventedSpell(q.spell.site, q.spell.fromUtc, dry.hours, { dewPointC, meanTempC: 25 }),
        swath: { ...plain.swath, dryMatterTHa: 2 },
      };
      const prepared = prepareWeather(request.weather);
      if (!prepared.ok) throw new Error("the invented weather is refused");
      const { weather } = prepared.value;
      const course = runCourse(weather, request.swath, weather.startUtcMs, []);
      // The case must be what it claims to be.
      expect(Math.min(...course.moistureWb)).toBeLessThan(footWb);
      const quick = quickBoard(request, runCourse);
      const slow = windowsByMinute(request, weather, runCourse, quick.worthOf);
      expect(quick.pairs).toEqual(slow);
      dampWindows += windowsOfRoute(slow, "dry-hay").length;
    }),
    { seed: 11, numRuns: 8, interruptAfterTimeLimit: 8_000 },
  );
  expect(dampWindows).toBeGreaterThan(10);
}, 60_000);

test("they agree around a clock change of half an hour, on every kind of route", () => {
  const seen = new Set<string>();
  fc.assert(
    fc.property(question, fc.constantFrom(...SPELLS.slice(-2)), (q, spell) => {
      const request = requestOf({ ...q, spell, hours: 110, areaHa: 2, wetness: 0 });
      const prepared = prepareWeather(request.weather);
      if (!prepared.ok) throw new Error("the invented weather is refused");
      const course = inventedCourse(q.seed);
      const quick = quickBoard(request, course);
      const slow = windowsByMinute(request, prepared.value.weather, course, quick.worthOf);
      expect(quick.pairs).toEqual(slow);
      for (const { route, windows } of slow) if (windows.length > 0) seen.add(route);
    }),
    { seed: 3, numRuns: 12, interruptAfterTimeLimit: 8_000 },
  );
  expect([...seen].sort()).toEqual([
    "direct-chop",
    "dry-hay",
    "grazing",
    "green-chop",
    "wilted-chop",
    "wrapped-bales",
  ]);
}, 60_000);
