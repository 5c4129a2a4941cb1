import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { dropMet, keepMet, metKey, metOf, onMet, readMet } from "../../../web/reading/met.ts";
import {
  keepLearned,
  keepReadings,
  learnedKey,
  type Reading,
  readingsOf,
  readLearned,
  readReadings,
  weatherKey,
} from "../../../web/reading/readings.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";

const DAY_MS = 86_400_000;
const NOW_MS = Date.parse("2026-07-03T12:00:00Z");
const FIELD = learnedKey(DEMO_INPUTS.fieldName, DEMO_INPUTS.crop);
const source = { kind: "sample", id: "one", title: "One", series: {} } as WeatherSource;
const reading: Reading = {
  optionId: "cut",
  weather: weatherKey(source),
  field: FIELD,
  request: { atUtc: "2026-07-02T18:00:00Z", method: "oven", moistureWb: 0.4 },
  place: "",
  keptMs: NOW_MS,
};
const rate = (rateLnMean: number) => ({ rateLnMean, rateLnSd: 0.1, atUtc: "2026-07-01T00:00:00Z" });

beforeEach(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
  });
});
afterEach(() => vi.unstubAllGlobals());

test("readings are there again after a reload, beside the rate that was known before them", () => {
  keepLearned("other field", rate(0.3));
  keepReadings([reading], { [FIELD]: rate(0.1), "other field": rate(0.3) });
  // What the readings taught is kept too, and must not count beside them a second time.
  keepLearned(FIELD, rate(-0.2));
  expect(readReadings(NOW_MS + DAY_MS)).toEqual({
    readings: [reading],
    learned: { [FIELD]: rate(0.1), "other field": rate(0.3) },
  });
  // No swath lies so long: then what they taught holds.
  expect(readReadings(NOW_MS + 15 * DAY_MS)).toEqual({ readings: [], learned: readLearned() });
  expect(readLearned()[FIELD]).toEqual(rate(-0.2));
});

test("a field of which nothing was known before its readings starts from nothing again", () => {
  keepReadings([reading], {});
  keepLearned(FIELD, rate(-0.2));
  expect(readReadings(NOW_MS).learned).toEqual({});
});

test("what is unreadable is as if nothing were kept", () => {
  localStorage.setItem("swathclock-readings", '{"readings":[{"optionId":1},7],"before":3}');
  localStorage.setItem("swathclock-learned", "{");
  expect(readReadings(NOW_MS)).toEqual({ readings: [], learned: {} });
});

test("a reading is of its row, its weather and its field", () => {
  const picture = { source, inputs: DEMO_INPUTS };
  expect(readingsOf([reading], picture, "cut")).toEqual([reading]);
  expect(readingsOf([reading], picture, "other cut")).toEqual([]);
  expect(readingsOf([reading], { ...picture, inputs: { ...DEMO_INPUTS, crop: "corn" } }, "cut")).toEqual([]);
  const other = { ...source, id: "two" } as WeatherSource;
  expect(readingsOf([reading], { ...picture, source: other }, "cut")).toEqual([]);
});

const bandsWb = { p10: 0.3, p25: 0.35, p50: 0.42, p75: 0.45, p90: 0.5 };
const issued = {
  atUtc: "2026-07-02T18:00:00Z",
  bandsWb,
  targets: [
    { targetWb: 0.6, chance: 1 },
    { targetWb: 0.16, chance: 0.1 },
  ],
};
const bands = [
  { route: "wrapped-bales", bandWb: [0.45, 0.6] },
  { route: "dry-hay", bandWb: [0.12, 0.16] },
] as const;

test("forecasts that met a reading are each kept once, with the chance of each route's band", () => {
  const met = metOf(issued, { moistureWb: 0.4 }, "2026-07-01T12:00:00Z", "dry-hay", bands);
  if (met === null) throw new Error("it met one");
  let told = 0;
  const stop = onMet(() => {
    told += 1;
  });
  keepMet(met);
  stop();
  expect(told).toBe(1);
  const later = { ...met, issuedUtc: "2026-07-02T06:00:00Z" };
  for (const one of [met, later, later]) keepMet(one);
  expect(readMet()).toEqual([met, later]);
  expect(met.chances?.map(({ route, chance, came }) => [route, chance, came])).toEqual([
    ["wrapped-bales", 1, true],
    ["dry-hay", 0.1, false],
  ]);
  // One issued after the reading, and an interval, are no forecast that met a number.
  expect(metOf(issued, { moistureWb: 0.4 }, "2026-07-02T19:00:00Z", null, bands)).toBeNull();
  expect(metOf(issued, {}, "2026-07-01T12:00:00Z", null, bands)).toBeNull();
});

test("readings of two fields that agree to the minute are two, and one is taken back alone", () => {
  const met = metOf(issued, { moistureWb: 0.4 }, "2026-07-01T12:00:00Z", "dry-hay", bands);
  if (met === null) throw new Error("it met one");
  const others: Reading[] = [
    { ...reading, field: "other field" },
    { ...reading, optionId: "other cut" },
    { ...reading, place: "north end" },
  ];
  for (const one of [reading, ...others, reading]) keepMet({ ...met, of: metKey(one) });
  expect(readMet()).toHaveLength(4);
  dropMet(reading);
  expect(readMet().map(({ of }) => of)).toEqual(others.map(metKey));
  // What an older page kept does not say of which field it is.
  keepMet(met);
  dropMet(reading);
  expect(readMet()).toHaveLength(3);
});
