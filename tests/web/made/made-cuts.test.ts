import { expect, test } from "vitest";
import type { CutOptionAnswer, RouteAnswer } from "../../../model/harvest/index.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { readMowing } from "../../../web/made/MowingBegan.tsx";
import {
  cutsThatLie,
  keepMade,
  madeOf,
  readMade,
  withMade,
  withoutMade,
} from "../../../web/made/made-cuts.ts";
import { learnedKey, type Reading, weatherKey } from "../../../web/reading/readings.ts";
import { bestOpen } from "../../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";
import { deviceStorage } from "../../support/device-storage.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const DAY_MS = 86_400_000;
const NOW_MS = Date.parse("2026-07-02T22:00:00Z");
const CUT = "2026-07-01T19:00:00Z";
const series = inventedSpell(PLACES.southDakota, "2026-06-28T05:00:00Z", 48);
const source: WeatherSource = { kind: "upload", name: "own.csv", series, missing: 0 };
const where = { source, inputs: DEMO_INPUTS };

deviceStorage();

test("a cut that was made is kept by place, field and crop for as long as a swath may lie, and can be taken back", () => {
  const made = withMade(withMade([], where, CUT, NOW_MS), where, CUT, NOW_MS);
  expect(made).toHaveLength(1);
  keepMade(made);
  expect(readMade(NOW_MS + DAY_MS)).toEqual(made);
  expect(readMade(NOW_MS + 15 * DAY_MS)).toEqual([]);
  expect(madeOf(made, where)).toEqual(made);
  expect(madeOf(made, { ...where, inputs: { ...DEMO_INPUTS, crop: "corn" } })).toEqual([]);
  expect(madeOf(made, { ...where, source: { ...source, name: "other.csv" } })).toEqual([]);
  expect(withoutMade(made, where, "2026-07-01T19:00Z")).toEqual([]);
});

test("the board is asked with the cuts that lie and with the readings by cut, under the route that was measured", () => {
  const own = { weather: weatherKey(source), field: learnedKey(DEMO_INPUTS.fieldName, DEMO_INPUTS.crop) };
  const reading = (optionId: string, moistureWb: number): Reading => ({
    ...own,
    optionId,
    route: "dry-hay",
    request: { atUtc: "2026-07-02T20:00:00Z", method: "oven", moistureWb },
    place: "",
    keptMs: NOW_MS,
  });
  const readings = [reading(`${CUT}/swath`, 0.5), reading(`${CUT}/swath`, 0.48)];
  const made = withMade([], where, CUT, NOW_MS);
  expect(cutsThatLie(made, readings, where, [{ route: "dry-hay" }])).toEqual({
    madeCuts: [{ cutUtc: CUT }],
    readCuts: [{ cutUtc: CUT, route: "dry-hay", readings: readings.map(({ request }) => request) }],
  });
  // By its place a reading is told from the same once more.
  const north = { ...reading(`${CUT}/swath`, 0.5), place: "north end" };
  expect(cutsThatLie([], [north], where).readCuts?.[0]?.readings[0]).toMatchObject({ place: "north end" });
  // A route that is not looked at any more teaches nothing by its passes.
  expect(cutsThatLie([], readings, where, [{ route: "wrapped-bales" }]).readCuts?.[0]?.route).toBeUndefined();
  expect(cutsThatLie(made, readings, { ...where, inputs: { ...DEMO_INPUTS, fieldName: "Hill" } })).toEqual(
    {},
  );
});

test("when mowing began lies between the weather's first hour and now, else the limit is named", () => {
  const manner: Manner = { units: "metric", hour12: false, locale: "en-GB", zone: "America/Chicago" };
  const span = { fromMs: Date.parse("2026-06-28T05:00:00Z"), nowMs: NOW_MS };
  expect(readMowing("2026-07-01T14:00", span, manner)).toEqual({ error: null, cutUtc: CUT });
  expect(readMowing("2026-07-02T18:00", span, manner).error).toMatch(
    /must not lie after now \(Thursday 17:00\)/,
  );
  expect(readMowing("2026-06-20T18:00", span, manner).error).toMatch(/before this weather begins .*station/);
  expect(readMowing("", span, manner).error).toMatch(/must be a day and an hour/);
});

test("of a cut that lies the route with a window that is worth most is shown, though none has a rank", () => {
  const route = (valuePerHa: number, windows: number) =>
    ({ rank: null, valuePerHa, windows: Array(windows).fill({}) }) as unknown as RouteAnswer;
  const routes = [route(900, 0), route(200, 1), route(300, 2)];
  const option = { made: true, routes } as unknown as CutOptionAnswer;
  expect(bestOpen(option)).toBe(routes[2]);
  expect(bestOpen({ ...option, routes: routes.slice(0, 1) })).toBeNull();
});
