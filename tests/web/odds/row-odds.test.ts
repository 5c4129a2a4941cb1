import { expect, test } from "vitest";
import type { CutOptionAnswer, RouteAnswer } from "../../../model/harvest/index.ts";
import { rowOdds, unplannedOdds } from "../../../web/odds/row-odds.ts";
import { metric24, us12 } from "../../support/manners.ts";

const FROM_MS = Date.parse("2026-07-01T17:00:00Z"); // Wednesday noon in Chicago

/** Only what the lines read. */
const route = {
  route: "dry-hay",
  elapsedHours: { p10: 46, p25: 50, p50: 72, p75: 98, p90: null },
  neverShare: 0.1,
  rainMm: { mean: 2, p90: 6.4 },
  valuePerHa: 127,
  odds: {
    chance: 0.9,
    rainChances: [
      { aboveMm: 1, chance: 0.6 },
      { aboveMm: 5, chance: 0.2 },
      { aboveMm: 10, chance: 0.02 },
    ],
    valuePerHa: { p10: -210, p25: -80, p50: -30, p75: 300, p90: 460 },
    broughtPerHa: 150,
    leftPerHa: -80,
    text: null,
    beforeRain: { chance: 0.4, valuePerHa: 300, elsePerHa: -20 },
  },
} as unknown as RouteAnswer;
const manner = metric24("America/Chicago");

test("hours, rain and money of a cut are told as shares of its courses, in the farm's time", () => {
  expect(rowOdds(route, false, FROM_MS, "", manner)).toEqual([
    {
      of: "Dry hay can begin",
      told: "1 in 10 by Fri 10:00 (46 h), half by Sat 12:00 (72 h); 1 in 10 never within this weather.",
    },
    {
      of: "Rain on the swath until then, or to the end of the weather",
      told: "6 in 10 over 1 mm, 2 in 10 over 5 mm, under 1 in 10 over 10 mm; 9 in 10 stay under 6.4 mm.",
    },
    {
      of: "Worth",
      told: "127 a hectare on average; half of the courses below -30, 1 in 10 below -210, 1 in 10 above 460.",
    },
  ]);
});

test("chances that are told alike are told once", () => {
  const rain = (...chances: number[]) => {
    const rainChances = chances.map((chance, i) => ({ aboveMm: [1, 5, 10][i], chance }));
    const odds = { ...route.odds, rainChances } as unknown as NonNullable<RouteAnswer["odds"]>;
    return rowOdds({ ...route, odds }, false, FROM_MS, "", manner)[1]?.told.replace(/;.*/, "");
  };
  expect(rain(0.02, 0.01, 0)).toBe("under 1 in 10 over 1 mm");
  expect(rain(0.4, 0.03, 0)).toBe("4 in 10 over 1 mm, under 1 in 10 over 5 mm");
  expect(rain(0.99, 0.97, 0.4)).toBe("over 9 in 10 over 5 mm, 4 in 10 over 10 mm");
  expect(rain(0.6, 0.21, 0.19)).toBe("6 in 10 over 1 mm, 2 in 10 over 5 mm and over 10 mm");
});

test("the units and clock of the reader hold here too", () => {
  const told = rowOdds(route, false, FROM_MS, "$", us12("America/Chicago")).map((line) => line.told);
  expect(told[0]).toContain("half by Sat noon");
  expect(told[1]).toContain("6 in 10 over 0.04 in");
  expect(told[1]).toContain("9 in 10 stay under 0.25 in");
  expect(told[2]).toContain("$ 51 an acre on average");
});

test("what never comes is said, what stands has no rain on a swath, and without odds nothing is told", () => {
  const never = { p10: null, p25: null, p50: null, p75: null, p90: null };
  const none = { ...route, elapsedHours: never, neverShare: 1, valuePerHa: null };
  expect(rowOdds(none, true, FROM_MS, "", manner)).toEqual([
    { of: "Dry hay can begin", told: "over 9 in 10 never within this weather." },
  ]);
  expect(rowOdds(none, false, FROM_MS, "", manner)[1]?.of).toBe(
    "Rain on the swath to the end of the weather",
  );
  const sure = { ...route, neverShare: 0, rainMm: { mean: 0, p90: 0 } };
  expect(rowOdds(sure, false, FROM_MS, "", manner)[1]).toMatchObject({
    of: "Rain on the swath until then",
    told: expect.stringMatching(/; 9 in 10 stay dry\.$/),
  });
  const { odds: _odds, ...plain } = route;
  expect(rowOdds(plain, false, FROM_MS, "", manner)).toEqual([]);
});

test("a route without a window in the main forecast says its chance and worth, whichever route is looked at", () => {
  const hay = { ...route, windows: [], odds: { ...route.odds, chance: 0.47 } } as unknown as RouteAnswer;
  const chop = { ...hay, route: "wilted-chop", windows: [{}] } as unknown as RouteAnswer;
  const rare = { ...hay, route: "wrapped-bales", odds: { ...route.odds, chance: 0.1 } } as RouteAnswer;
  const option = { kind: "swath", routes: [chop, rare, hay] } as unknown as CutOptionAnswer;
  const told = "no window in the main forecast; 5 in 10 of its courses have one.";
  expect(unplannedOdds(option, chop, "", manner)).toEqual([
    {
      of: "Dry hay",
      told: `${told} Worth 127 a hectare on average; half of the courses below -30, 1 in 10 below -210, 1 in 10 above 460.`,
    },
  ]);
  expect(unplannedOdds(option, hay, "", manner)).toEqual([{ of: "Dry hay", told }]);
});
