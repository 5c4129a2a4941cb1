import { describe, expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/board.ts";
import type { WindowsRequest } from "../../../model/harvest/request.ts";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import { plainRequest } from "./requests.ts";

/** The hazard calendar on the board: rows carry it, reasons tell it, and what is taken fresh waits it out. */

const DAY_MS = 24 * HOUR_MS;

function answerOf(changes: Partial<WindowsRequest>, rainMm: Record<number, number> = {}, meanTempC = 24) {
  const request = plainRequest(
    {
      field: { areaHa: 2 },
      standing: { moistureWb: 0.67, dailyNeedKgDm: 900 },
      cutHours: [9],
      ...changes,
    },
    { hours: 240, rainMm, meanTempC },
  );
  const outcome = findWindows({
    ...request,
    swath: { ...request.swath, crop: changes.swath?.crop ?? "sorghum-sudan" },
  });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

const SWATH = plainRequest().swath;
const ROUTES: WindowsRequest["routes"] = [
  { route: "wrapped-bales" },
  { route: "direct-chop", store: "bunker" },
  { route: "green-chop" },
  { route: "grazing" },
];

describe("rain that ends a drought, 20 mm in the first noon", () => {
  const answer = answerOf({ routes: ROUTES, hazards: { drought: true } }, { 12: 10, 13: 10 });
  const rainEndMs = Date.parse("2026-07-01T05:00:00Z") + 14 * HOUR_MS;
  const routeOf = (key: string) =>
    answer.options.flatMap(({ routes }) => routes).find(({ route }) => route === key);

  test("grazing and green chop begin no earlier than two weeks after it in a sorghum type: not in this weather", () => {
    for (const key of ["grazing", "green-chop"]) {
      const route = routeOf(key);
      expect(
        route?.windows.every(
          ({ startUtc }) =>
            Date.parse(startUtc) >= rainEndMs + 14 * DAY_MS || Date.parse(startUtc) < rainEndMs - 2 * HOUR_MS,
        ),
      ).toBe(true);
      expect(answer.hazards.some((span) => span.route === key && span.code === "prussic-regrowth")).toBe(
        true,
      );
    }
  });

  test("a cut in the first five days waits for nitrate, one after it is a caution; codes, times and words stand in the row", () => {
    const cuts = answer.options.filter(({ kind }) => kind === "swath");
    for (const { cutUtc, routes } of cuts) {
      const sinceDays = (Date.parse(cutUtc ?? "") - rainEndMs) / DAY_MS;
      const codes = routes[0]?.hazards.map(({ code }) => code) ?? [];
      if (sinceDays > 0 && sinceDays < 4.9) expect(codes).toContain("nitrate-after-rain");
      if (sinceDays > 5.1) expect(codes).toEqual(["prussic-regrowth", "nitrate-after-rain-late"]);
      for (const code of codes)
        expect(routes[0]?.why.find((reason) => reason.code === code)?.text).toMatch(
          /Counted until|lasts past/,
        );
    }
    expect(cuts.length).toBeGreaterThan(7);
  });

  test("the soil is too wet to carry a mower in the 24 hours after it", () => {
    const second = answer.options.find(({ cutUtc }) => cutUtc === "2026-07-02T14:00:00Z");
    expect(second?.routes[0]?.hazards.map(({ code }) => code)).toContain("soil-too-wet");
  });
});

test("no drought, no nitrate clock; nobody having said counts as drought; alfalfa has neither", () => {
  const rain = { 12: 10, 13: 10 };
  const codes = (changes: Partial<WindowsRequest>) => {
    const { hazards } = answerOf({ routes: ROUTES, ...changes }, rain);
    return [...new Set(hazards.map(({ code }) => code))].filter((code) => code !== "soil-too-wet");
  };
  expect(codes({ hazards: { drought: false } })).toEqual([]);
  expect(codes({})).toContain("nitrate-after-rain");
  expect(codes({ hazards: { drought: null } })).toContain("prussic-regrowth");
  expect(codes({ swath: { ...SWATH, crop: "alfalfa" }, hazards: { drought: true } })).toEqual([]);
});

test("a drought corn is chopped green from the fifth day on, and says why it waits", () => {
  const answer = answerOf(
    {
      swath: { ...SWATH, crop: "drought-corn" },
      routes: [{ route: "green-chop" }],
      hazards: { drought: true },
    },
    { 3: 12 },
  );
  const [chop] = answer.options[0]?.routes ?? [];
  const first = Date.parse(chop?.windows[0]?.startUtc ?? "");
  const rainEndMs = Date.parse("2026-07-01T05:00:00Z") + 4 * HOUR_MS;
  expect(first).toBeGreaterThanOrEqual(rainEndMs + 5 * DAY_MS);
  expect(first).toBeLessThan(rainEndMs + 6.5 * DAY_MS);
  expect(chop?.hazards.map(({ code }) => code)).toEqual(["nitrate-after-rain-late"]);
});

test("new growth under the height is not grazed at all, and the limit is told", () => {
  const { options } = answerOf({
    routes: [{ route: "grazing" }],
    hazards: { drought: false, regrowthCm: 40 },
  });
  const [grazing] = options[0]?.routes ?? [];
  expect([grazing?.windows, grazing?.limitedBy, grazing?.rank]).toEqual([[], "forecast-too-short", null]);
  expect(grazing?.why.map(({ code }) => code)).toContain("prussic-short");
  const tall = answerOf({ routes: [{ route: "grazing" }], hazards: { drought: false, regrowthCm: 90 } });
  expect(tall.options[0]?.routes[0]?.windows.length).toBeGreaterThan(0);
});

test("frost holds the sorghum family back by its route's days", () => {
  const { hazards } = answerOf({ routes: ROUTES, hazards: { drought: false } }, {}, 3);
  const frost = (key: string) =>
    hazards.find(({ route, code }) => route === key && code === "prussic-after-frost");
  const days = (key: string) => {
    const span = frost(key);
    return span ? (Date.parse(span.endUtc) - Date.parse(span.sinceUtc)) / DAY_MS : null;
  };
  expect(frost("grazing")?.level).toBe("wait");
  expect(days("grazing")).not.toBeNull();
  expect(frost("wrapped-bales")?.text).toMatch(/wait 5 days/);
  expect(frost("grazing")?.text).toMatch(/wait 7 days/);
});

test("a best cut that lies in a wait is warned of before all else", () => {
  const { warnings, best, options } = answerOf(
    {
      routes: [{ route: "wilted-chop", store: "bunker" }],
      hazards: { drought: true },
      rates: { waitPctPerDay: 10 },
    },
    { 3: 12 },
  );
  const top = options.find(({ id }) => id === best.overall?.optionId);
  expect(top?.routes[0]?.hazards.some(({ level }) => level === "wait")).toBe(true);
  expect(warnings[0]).toMatch(
    /^Wilted chop, the best cut: .*(Rain has restarted growth|The soil does not carry)/,
  );
});
