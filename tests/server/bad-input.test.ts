import { describe, expect, test } from "vitest";
import { drydownWithOdds, recordAnswer } from "../../model/odds/index.ts";
import { check } from "../../server/check.ts";
import { drydownRequest } from "../../server/schemas/drydown.ts";
import { recordRequest } from "../../server/schemas/record.ts";
import { windowsRequest } from "../../server/schemas/windows.ts";
import { changed, exampleDrydown, exampleWindows } from "../support/requests.ts";

const PLACE_OF_MOISTURE = "(wet-basis fraction; 18 % is 0.18)";

function issuesOf(schema: Parameters<typeof check>[0], input: unknown) {
  const result = check(schema, input);
  return result.ok ? [] : result.issues;
}

test("the shipped examples pass", () => {
  expect(issuesOf(drydownRequest, exampleDrydown())).toEqual([]);
  expect(issuesOf(windowsRequest, exampleWindows())).toEqual([]);
});

describe("a drydown request names field, value and limit", () => {
  test.each([
    [
      "swath.dryMatterTHa",
      0,
      "out-of-range",
      "swath.dryMatterTHa: got 0, must be above 0 and at most 30 t/ha",
    ],
    [
      "swath.initialMoistureWb",
      18,
      "out-of-range",
      `swath.initialMoistureWb: got 18, must be at least 0.05 and at most 0.92 ${PLACE_OF_MOISTURE}`,
    ],
    [
      "swath.coveredFraction",
      1.2,
      "out-of-range",
      "swath.coveredFraction: got 1.2, must be at least 0.05 and at most 1 (share of the cut width)",
    ],
    [
      "weather.site.latitude",
      444,
      "out-of-range",
      "weather.site.latitude: got 444, must be at least -90 and at most 90 degrees north",
    ],
    ["swath.dryMatterTHa", "3", "wrong-type", 'swath.dryMatterTHa: got "3", must be a number'],
    ["swath.dryMatterTHa", null, "wrong-type", "swath.dryMatterTHa: got null, must be a number"],
    ["swath.stubbleCm", undefined, "missing", "swath.stubbleCm: missing; must be a number"],
    [
      "cutUtc",
      "2026-07-01 15:00",
      "bad-time",
      'cutUtc: got "2026-07-01 15:00", must be a time in ISO 8601 UTC ending in Z, as 2026-07-01T15:00:00Z',
    ],
    [
      "swath.yield",
      3,
      "unknown-key",
      "swath.yield: unknown key; known here: crop, dryMatterTHa, initialMoistureWb, conditioning, " +
        "coveredFraction, stubbleCm, soil, dryingAgent, freeWaterMm",
    ],
    [
      "weather.hours.airTempC",
      undefined,
      "missing",
      "weather.hours.airTempC: missing; must be a list with one value an hour",
    ],
  ])("%s = %j is %s", (path, value, code, message) => {
    expect(issuesOf(drydownRequest, changed(exampleDrydown(), path, value))).toEqual([
      { path, code, message },
    ]);
  });

  test("an unknown crop lists the known ones", () => {
    const [issue] = issuesOf(drydownRequest, changed(exampleDrydown(), "swath.crop", "wheat"));
    expect(issue?.code).toBe("unknown-value");
    expect(issue?.message).toContain('swath.crop: got "wheat", must be one of alfalfa, red-clover');
    expect(issue?.message).toContain("drought-corn");
  });

  test("an hour that is text is named by its place, and a column of text does not flood the answer", () => {
    const one = issuesOf(drydownRequest, changed(exampleDrydown(), "weather.hours.airTempC.3", "warm"));
    expect(one.map(({ path, code }) => [path, code])).toEqual([["weather.hours.airTempC[3]", "wrong-type"]]);
    const column = Array.from({ length: 120 }, () => "warm");
    const many = issuesOf(drydownRequest, changed(exampleDrydown(), "weather.hours.airTempC", column));
    expect(many.length).toBe(10);
  });

  test("several faults are all named at once", () => {
    const request = changed(exampleDrydown(), "swath.crop", "wheat");
    const issues = issuesOf(drydownRequest, changed(request as object, "swath.dryMatterTHa", -1));
    expect(issues.map(({ path }) => path).sort()).toEqual(["swath.crop", "swath.dryMatterTHa"]);
  });

  test("too many targets, operations and hours are refused", () => {
    const targets = Array.from({ length: 21 }, () => 0.2);
    expect(issuesOf(drydownRequest, changed(exampleDrydown(), "targetsWb", targets))[0]?.code).toBe(
      "too-many",
    );
    const hours = Array.from({ length: 17_569 }, () => 1);
    const issues = issuesOf(drydownRequest, changed(exampleDrydown(), "weather.hours.rainMm", hours));
    expect(issues[0]?.message).toBe(
      "weather.hours.rainMm: got a list of 17569, must have at most 17568 hours",
    );
  });

  test.each([
    [{ atUtc: "2026-07-02T19:00:00Z", method: "guess", moistureWb: 0.4 }, "unknown-value"],
    [{ atUtc: "2026-02-30T19:00:00Z", method: "oven", moistureWb: 0.4 }, "bad-time"],
  ])("reading %j is %s", (reading, code) => {
    const issues = issuesOf(drydownRequest, changed(exampleDrydown(), "readings", [reading]));
    expect(issues.map((issue) => issue.code)).toEqual([code]);
  });
});

test("what a reading or a met forecast is wrong about is told all at once, with its values", () => {
  const at = { atUtc: "2026-07-02T19:00:00Z", method: "microwave" } as const;
  const readings = [
    at,
    { ...at, moistureWb: 0.4, range: [0.3, 0.4] },
    { ...at, range: [0.4, 0.3] },
    { ...at, moistureWb: 18 },
    { ...at, moistureWb: 0.04 },
  ];
  const asked = check(drydownRequest, changed(exampleDrydown(), "readings", readings));
  const answer = asked.ok ? drydownWithOdds(asked.value) : asked;
  expect(answer.ok ? [] : answer.issues.map(({ message }) => message)).toEqual([
    "readings[0]: got neither moistureWb nor range, must have one of them",
    "readings[1]: got both moistureWb and range, must have one of them",
    "readings[2].range: got 0.4 to 0.3, must be [lower, upper]",
    `readings[3].moistureWb: got 18, must be at least 0.05 and at most 0.92 ${PLACE_OF_MOISTURE}`,
    `readings[4].moistureWb: got 0.04, must be at least 0.05 and at most 0.92 ${PLACE_OF_MOISTURE}. No crop in the field is drier: it charred, or its fresh weight is wrong? Take a new sample`,
  ]);
  const hours = { issuedUtc: "2026-07-02T19:00:00Z", atUtc: "2026-07-01T19:00:00Z" };
  const met = check(recordRequest, {
    timeZone: "Nowhere",
    moisture: [{ ...hours, membersWb: [0.3], observedWb: 18 }],
    chances: [{ ...hours, atUtc: hours.issuedUtc, route: "combine", chance: 2, came: true }],
  });
  const record = met.ok ? recordAnswer(met.value) : met;
  expect(record.ok ? [] : record.issues.map(({ path }) => path)).toEqual([
    "timeZone",
    "moisture[0].atUtc",
    "moisture[0].observedWb",
    "chances[0].route",
    "chances[0].chance",
  ]);
});

describe("a windows request names field, value and limit", () => {
  test.each([
    ["field.areaHa", 0, "field.areaHa", "out-of-range"],
    ["cutHours", [9.5], "cutHours[0]", "not-whole"],
    ["cutHours", [24], "cutHours[0]", "out-of-range"],
    ["cutHours", Array.from({ length: 25 }, () => 9), "cutHours", "too-many"],
    ["workHours", { from: "7", to: "20:00" }, "workHours.from", "bad-time"],
    ["routes", [{ route: "combine" }], "routes[0].route", "unknown-value"],
    ["routes", [{ route: "dry-hay", bandWb: [0.2, 0.1] }], "routes[0].bandWb", "out-of-order"],
    ["treatments.0.id", "", "treatments[0].id", "too-few"],
    ["treatments.0.plan", [{ kind: "ted", rule: "morning-after" }], "treatments[0].plan[0]", "missing"],
    ["treatments.0.plan", [{ kind: "ted" }], "treatments[0].plan[0]", "missing"],
    [
      "treatments.0.plan",
      [{ kind: "ted", rule: "after-cut", hours: 4, hour: 9 }],
      "treatments[0].plan[0].hour",
      "one-of",
    ],
  ])("%s = %j", (path, value, at, code) => {
    const issues = issuesOf(windowsRequest, changed(exampleWindows(), path, value));
    expect(issues.map((issue) => [issue.path, issue.code])).toEqual([[at, code]]);
    expect(issues[0]?.message).toContain(at);
  });

  test("a band in the wrong order is answered with its values", () => {
    const routes = [{ route: "dry-hay", bandWb: [0.2, 0.1] }];
    expect(issuesOf(windowsRequest, changed(exampleWindows(), "routes", routes))[0]?.message).toBe(
      "routes[0].bandWb: got [0.2, 0.1], must be [driest, wettest]",
    );
    const three = issuesOf(windowsRequest, changed(exampleWindows(), "routes.0.bandWb", [0.1, 0.2, 0.3]));
    expect(three[0]?.message).toContain("routes[0].bandWb: got [0.1, 0.2, 0.3]");
  });

  test("a board too large to answer in good time says what to cut down", () => {
    const { weather } = exampleWindows();
    const long = {
      ...weather,
      hours: { ...weather.hours, startUtc: Array.from({ length: 9600 }, () => "x") },
    };
    const issues = issuesOf(windowsRequest, { ...exampleWindows(), weather: long });
    expect(issues.map(({ path, code }) => [path, code])).toEqual([["weather.hours.startUtc", "too-much"]]);
    expect(issues[0]?.message).toContain("must be at most 2000000");
  });

  test("every kind of plan step passes as it stands in the contract", () => {
    const plan = [
      { kind: "ted", rule: "morning-after", hour: 10, coveredFraction: 0.95 },
      { kind: "ted", rule: "after-cut", hours: 4 },
      { kind: "rake", rule: "before-window", hours: 1 },
      { kind: "invert", atUtc: "2026-07-03T15:00:00Z" },
    ];
    const result = check(windowsRequest, changed(exampleWindows(), "treatments.0.plan", plan));
    expect(result.ok && result.value.treatments?.[0]?.plan).toMatchObject(plan);
  });
});
