import { expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/board.ts";
import { changed } from "../../support/requests.ts";
import { plainRequest } from "./requests.ts";

const PLAIN = plainRequest({
  standing: { moistureWb: 0.8 },
  treatments: [
    {
      id: "wide",
      conditioning: "roll",
      coveredFraction: 0.7,
      stubbleCm: 8,
      plan: [{ kind: "ted", rule: "morning-after", hour: 10 }],
    },
  ],
});

function issuesOf(request: unknown) {
  const outcome = findWindows(request as typeof PLAIN);
  return outcome.ok ? [] : outcome.issues;
}

test.each([
  ["field.areaHa", 0, "field.areaHa", "out-of-range", "got 0, must be above 0 and at most 5000 ha"],
  ["field.areaHa", Number.NaN, "field.areaHa", "out-of-range", "got NaN"],
  ["swath.crop", "wheat", "swath.crop", "unknown-value", 'got "wheat", must be one of alfalfa'],
  ["swath.crop", "__proto__", "swath.crop", "unknown-value", 'got "__proto__"'],
  [
    "swath.dryMatterTHa",
    0,
    "swath.dryMatterTHa",
    "out-of-range",
    "got 0, must be above 0 and at most 30 t/ha",
  ],
  ["swath.initialMoistureWb", 78, "swath.initialMoistureWb", "out-of-range", "18 % is 0.18"],
  ["swath.freeWaterMm", -1, "swath.freeWaterMm", "out-of-range", "got -1"],
  ["mowHaPerH", 0, "mowHaPerH", "out-of-range", "got 0"],
  ["cutHours", [9, 24], "cutHours[1]", "out-of-range", "got 24, must be at least 0 and at most 23"],
  ["cutHours", [9.5], "cutHours[0]", "not-whole", "got 9.5, must be a whole number"],
  ["cutHours", [], "cutHours", "too-few", "empty list"],
  [
    "workHours",
    { from: "7:00", to: "20:00" },
    "workHours.from",
    "bad-time",
    'got "7:00", must be a local time HH:MM',
  ],
  ["workHours", { from: "24:00", to: "20:00" }, "workHours.from", "bad-time", 'got "24:00"'],
  ["workHours", { from: "07:00", to: "07:00" }, "workHours.to", "out-of-order", "must differ"],
  ["standing.moistureWb", 80, "standing.moistureWb", "out-of-range", "got 80"],
  ["standing.dryDownPointsPerDay", -1, "standing.dryDownPointsPerDay", "out-of-range", "got -1"],
  ["standing.dailyNeedKgDm", 0, "standing.dailyNeedKgDm", "out-of-range", "got 0, must be above 0"],
  ["soilCarry", { maxRainMm24h: 300 }, "soilCarry.maxRainMm24h", "out-of-range", "got 300"],
  ["treatments", [], "treatments", "too-few", "empty list"],
  ["treatments.0.coveredFraction", 1.1, "treatments[0].coveredFraction", "out-of-range", "got 1.1"],
  ["treatments.0.stubbleCm", -2, "treatments[0].stubbleCm", "out-of-range", "got -2"],
  ["treatments.0.id", "", "treatments[0].id", "too-few", "empty text"],
  ["treatments.0.conditioning", "hammer", "treatments[0].conditioning", "unknown-value", 'got "hammer"'],
  ["treatments.0.plan.0.hour", 24, "treatments[0].plan[0].hour", "out-of-range", "got 24"],
  ["treatments.0.plan.0.hour", 9.5, "treatments[0].plan[0].hour", "not-whole", "got 9.5"],
  ["treatments.0.plan.0.kind", "bale", "treatments[0].plan[0].kind", "unknown-value", 'got "bale"'],
  ["treatments.0.plan.0.routes", ["hay"], "treatments[0].plan[0].routes[0]", "unknown-value", 'got "hay"'],
  ["treatments.0.plan.0.rule", "at-noon", "treatments[0].plan[0].rule", "unknown-value", 'got "at-noon"'],
  [
    "treatments.0.plan",
    [{ kind: "ted", rule: "after-cut", hours: -1 }],
    "treatments[0].plan[0].hours",
    "out-of-range",
    "got -1",
  ],
  [
    "treatments.0.plan",
    [{ kind: "ted", atUtc: "2026-02-30T10:00:00Z" }],
    "treatments[0].plan[0].atUtc",
    "bad-time",
    "must be a time in ISO 8601 UTC ending in Z",
  ],
  ["routes", [], "routes", "too-few", "empty list"],
  ["routes", [{ route: "combine" }], "routes[0].route", "unknown-value", 'got "combine"'],
  ["routes", [{ route: "__proto__" }], "routes[0].route", "unknown-value", 'got "__proto__"'],
  ["routes", [{ route: "dry-hay" }, { route: "dry-hay" }], "routes[1].route", "duplicate", "a second time"],
  ["routes.0.bandWb", [0.16, 0.12], "routes[0].bandWb", "out-of-order", "got [0.16, 0.12]"],
  ["routes.0.bandWb", [12, 0.16], "routes[0].bandWb[0]", "out-of-range", "got 12"],
  ["routes.0.haPerH", 0, "routes[0].haPerH", "out-of-range", "got 0"],
  [
    "routes.0.package",
    "wagon",
    "routes[0].package",
    "unknown-value",
    'got "wagon", must be one of small-square',
  ],
  ["routes.0.store", "bunker", "routes[0].store", "not-for-route", "must be null for dry-hay"],
  [
    "routes",
    [{ route: "wilted-chop", package: "round" }],
    "routes[0].package",
    "not-for-route",
    "must be null",
  ],
  ["routes", [{ route: "grazing", bandWb: [0.5, 0.6] }], "routes[0].bandWb", "not-for-route", "has no band"],
  ["nowUtc", "tomorrow", "nowUtc", "bad-time", 'got "tomorrow"'],
  ["nowUtc", "2026-06-30T05:00:00Z", "nowUtc", "out-of-range", "the usable weather, 2026-07-01T05:00:00Z to"],
  ["nowUtc", "2026-07-05T05:00:00Z", "nowUtc", "out-of-range", "2026-07-05T05:00:00Z, must lie within"],
  ["nowUtc", "2026-07-04T06:00:00Z", "weather.hours", "too-short", "got 23 usable hours"],
])("%s = %j is refused at %s as %s", (path, value, at, code, words) => {
  const issues = issuesOf(changed(PLAIN, path, value));
  expect(issues.map((issue) => [issue.path, issue.code])).toEqual([[at, code]]);
  expect(issues[0]?.message).toContain(`${at}: `);
  expect(issues[0]?.message).toContain(words);
});

test("a treatment's name may stand only once", () => {
  const [treatment] = PLAIN.treatments ?? [];
  const issues = issuesOf({ ...PLAIN, treatments: [treatment, treatment] });
  expect(issues).toEqual([
    {
      path: "treatments[1].id",
      code: "duplicate",
      message: 'treatments[1].id: got "wide" a second time, must be there once',
    },
  ]);
});

test("faults of the question and of the weather are told together", () => {
  const request = changed(changed(PLAIN, "field.areaHa", -1) as object, "weather.site.latitude", 444);
  expect(issuesOf(request).map(({ path }) => path)).toEqual(["field.areaHa", "weather.site.latitude"]);
});

test("the plain question passes", () => {
  expect(issuesOf(PLAIN)).toEqual([]);
});
