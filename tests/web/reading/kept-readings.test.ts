import { expect, test } from "vitest";
import { dropMet, issueOf, keepMet, metKey, metOf, onMet, readMet } from "../../../web/reading/met.ts";
import { rateNow } from "../../../web/reading/rate-now.ts";
import {
  keepLearned,
  keepReadings,
  learnedKey,
  type Reading,
  rateBefore,
  rateBeside,
  rateKey,
  readingsHere,
  readingsOf,
  readReadings,
  weatherKey,
  withoutReading,
} from "../../../web/reading/readings.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";
import { deviceStorage } from "../../support/device-storage.ts";

const DAY_MS = 86_400_000;
const NOW_MS = Date.parse("2026-07-03T12:00:00Z");
const FIELD = learnedKey(DEMO_INPUTS.fieldName, DEMO_INPUTS.crop);
const source = {
  kind: "sample",
  id: "one",
  title: "One",
  series: { hours: { startUtc: [] } },
} as unknown as WeatherSource;
const CUT = "2026-07-01T14:00:00Z/all";
const PLACE = { latitude: 44, longitude: -98 } as Extract<WeatherSource, { kind: "forecast" }>["place"];
const hours = { startUtc: ["2026-07-01T05:00:00Z", "2026-07-08T04:00:00Z"] };
const forecast = { kind: "forecast", place: PLACE, series: { hours } } as unknown as WeatherSource;
const HERE = { source: forecast, inputs: DEMO_INPUTS };
const reading: Reading = {
  optionId: CUT,
  weather: weatherKey(forecast),
  field: FIELD,
  request: { atUtc: "2026-07-02T18:00:00Z", method: "oven", moistureWb: 0.4 },
  place: "",
  keptMs: NOW_MS,
};
const rate = (rateLnMean: number) => ({ rateLnMean, rateLnSd: 0.1, atUtc: "2026-07-01T00:00:00Z" });

deviceStorage();

test("readings are there again after a reload, each beside the rate that was known before it", () => {
  keepLearned("other field", rate(0.3));
  keepReadings([{ ...reading, before: rate(0.1) }]);
  // What the readings taught is kept too, and must not count beside them a second time.
  keepLearned(FIELD, rate(-0.2));
  const kept = readReadings(NOW_MS + DAY_MS);
  expect(kept.readings).toEqual([{ ...reading, before: rate(0.1) }]);
  expect(kept.learned).toEqual({ [FIELD]: rate(-0.2), "other field": rate(0.3) });
  expect(rateBeside(kept, HERE)).toEqual(rate(0.1));
  // No swath lies so long: then what they taught holds.
  const later = readReadings(NOW_MS + 15 * DAY_MS);
  expect(later.readings).toEqual([]);
  expect(rateBeside(later, HERE)).toEqual(rate(-0.2));
});

test("only readings that count on this board hold back what the field taught", () => {
  const learned = { [FIELD]: rate(-0.2) };
  const beside = (readings: readonly Reading[]) => rateBeside({ readings, learned }, HERE);
  const own = { ...reading, before: null };
  expect(beside([own])).toBeNull();
  // Of the demonstration, of another place or field, and of a cut that this weather does not reach.
  const away: Reading[] = [
    { ...own, weather: "sample one" },
    { ...own, weather: "place 1 2" },
    { ...own, field: "corn other" },
    { ...own, optionId: "2026-06-28T14:00:00Z/all" },
    { ...own, request: { ...own.request, atUtc: "2026-07-20T18:00:00Z" } },
  ];
  expect(beside(away)).toEqual(rate(-0.2));
  expect(readingsHere([...away, own], HERE)).toEqual([own]);
  // What invented weather taught is nothing of a field of that name.
  expect(rateBeside({ readings: [], learned }, { ...HERE, source })).toBeNull();
  expect(rateBeside({ readings: [], learned: { [rateKey({ ...HERE, source })]: rate(1) } }, HERE)).toBeNull();
});

test("a cut's first reading is kept beside what those of the other cuts taught", () => {
  const first = { ...reading, before: rate(0.1) };
  const state = { readings: [first], learned: { [FIELD]: rate(-0.2) } };
  expect(rateBefore(state, HERE, CUT, rate(-0.2))).toEqual(rate(0.1));
  expect(rateBefore(state, HERE, "2026-07-02T09:00:00Z/all", rate(-0.2))).toEqual(rate(-0.2));
  // Questioned, the first taught nothing.
  expect(rateBefore(state, HERE, "2026-07-02T09:00:00Z/all", null)).toEqual(rate(0.1));
  const second = { ...reading, optionId: "2026-07-02T09:00:00Z/all", before: rate(-0.2) };
  expect(rateBeside({ readings: [second], learned: {} }, HERE)).toEqual(rate(-0.2));
  // The first taken back, the second knows no more of it.
  expect(withoutReading([first, second], first, rate(0.1))).toEqual([{ ...second, before: rate(0.1) }]);
});

test("a rate that an older page kept before a field's readings is that of each of them", () => {
  localStorage.setItem(
    "swathclock-readings",
    JSON.stringify({ readings: [reading], before: { [FIELD]: rate(0.1) } }),
  );
  expect(readReadings(NOW_MS).readings).toEqual([{ ...reading, before: rate(0.1) }]);
});

test("what a field taught is told as far as it is not forgotten: half of it three weeks on", () => {
  const taught = rate(0.4);
  expect(rateNow(taught, "alfalfa", taught.atUtc)).toBeCloseTo(Math.exp(0.4), 9);
  expect(rateNow(taught, "alfalfa", "2026-07-22T00:00:00Z")).toBeCloseTo(Math.exp(0.2), 9);
});

test("what is unreadable is as if nothing were kept", () => {
  localStorage.setItem("swathclock-readings", '{"readings":[{"optionId":1},7],"before":3}');
  localStorage.setItem("swathclock-learned", "{");
  expect(readReadings(NOW_MS)).toEqual({ readings: [], learned: {} });
});

test("a reading is of its row, its weather and its field", () => {
  const picture = HERE;
  expect(readingsOf([reading], picture, CUT)).toEqual([reading]);
  expect(readingsOf([reading], picture, "other cut")).toEqual([]);
  expect(readingsOf([reading], { ...picture, inputs: { ...DEMO_INPUTS, crop: "corn" } }, CUT)).toEqual([]);
  expect(readingsOf([reading], { ...picture, source }, CUT)).toEqual([]);
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
  const met = metOf(issued, { moistureWb: 0.4 }, { issuedUtc: "2026-07-01T12:00:00Z" }, "dry-hay", bands);
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
  expect(metOf(issued, { moistureWb: 0.4 }, { issuedUtc: "2026-07-02T19:00:00Z" }, null, bands)).toBeNull();
  expect(metOf(issued, {}, { issuedUtc: "2026-07-01T12:00:00Z" }, null, bands)).toBeNull();
});

test("a forecast whose service tells no time of issue is scored from when it was had", () => {
  expect(issueOf({ issuedUtc: "2026-07-01T06:00:00Z", fetchedUtc: "2026-07-01T12:00:00Z" })).toEqual({
    issuedUtc: "2026-07-01T06:00:00Z",
  });
  expect(issueOf({})).toBeNull();
  // As toSeries gives Open-Meteo's and Bright Sky's.
  const issue = issueOf({ issuedUtc: null, fetchedUtc: "2026-07-01T12:00:00Z" });
  const met = metOf(issued, { moistureWb: 0.4 }, issue, "dry-hay", bands);
  expect(met).toMatchObject({ issuedUtc: "2026-07-01T12:00:00Z", had: true, observedWb: 0.4 });
  expect(met?.chances?.[0]).toMatchObject({ issuedUtc: "2026-07-01T12:00:00Z", chance: 1 });
});

test("readings of two fields that agree to the minute are two, and one is taken back alone", () => {
  const met = metOf(issued, { moistureWb: 0.4 }, { issuedUtc: "2026-07-01T12:00:00Z" }, "dry-hay", bands);
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
