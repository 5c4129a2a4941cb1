import { expect, test } from "vitest";
import { HOUR_MS, MINUTE_MS } from "../../../model/weather/clock.ts";
import { centroidsOf, clockOfData } from "../../../model/weather/station/clock-of-data.ts";
import { dayOfYear, extraterrestrialHourlyMJM2 } from "../../../model/weather/sun.ts";
import { expectWithin } from "../worked-examples/check.ts";

/**
 * Where the middle of a clear day's radiation stands from solar noon, in the hours of a file, by how the file names its
 * hours. Measured on the files of two American stations with typical years (extraterrestrial column, both +0.500) and on
 * an agricultural station in Nevada of 2015 (+0.10 from November to February, +1.12 under summer time). The files
 * themselves are not shipped: here the sky's own radiation (FAO-56 eqs 21-33) is written as they write theirs.
 */
const GREENSBORO = { latitude: 36.1, longitude: -79.95, elevationM: 273, timeZone: "America/New_York" };
const SAND_POINT = { latitude: 55.32, longitude: -160.52, elevationM: 7, timeZone: "America/Anchorage" };
const FALLON = {
  latitude: 39.4575,
  longitude: -118.77388,
  elevationM: 1208.5,
  timeZone: "America/Los_Angeles",
};

/** Mean of the sky's radiation over a span that ends `endMin` after the label and lasts `spanMin`, W/m². */
function sky(site: typeof FALLON, utcMs: number, endMin: number, spanMin: number): number {
  const steps = Math.max(1, spanMin / 5);
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const ms = utcMs + (endMin - ((k + 0.5) * spanMin) / steps) * MINUTE_MS;
    const day = dayOfYear(ms, (site.longitude / 15) * HOUR_MS);
    const hour = (ms % 86_400_000) / HOUR_MS;
    sum += (extraterrestrialHourlyMJM2(site.latitude, site.longitude, day, hour) * 1e6) / 3600;
  }
  return sum / steps;
}

/** The file of some days of a summer or a winter, by an offset of its clock, and what its sun says. */
function fileOf(site: typeof FALLON, offsetH: number, from: string, endMin: number, spanMin: number) {
  const startMs = Date.parse(from);
  const labels = Array.from({ length: 24 * 12 }, (_, i) => startMs + i * HOUR_MS);
  const wall = Float64Array.from(labels, (ms) => ms + offsetH * HOUR_MS);
  const solar = labels.map((ms) => sky(site, ms, endMin, spanMin));
  return centroidsOf(wall, solar, 1, site.longitude);
}

const said = { clock: null, label: null };

test.each([
  ["Greensboro", GREENSBORO, -5],
  ["Sand Point", SAND_POINT, -9],
] as const)("%s: hours named by their end stand at +0.500", (_, site, offsetH) => {
  const from = new Date(Date.UTC(2026, 5, 1, -offsetH)).toISOString();
  const found = clockOfData(fileOf(site, offsetH, from, 0, 60), site, 1, { clock: "standard", label: null });
  expectWithin(found.centroidH ?? Number.NaN, 0.5, 0.02);
  expect(found.label).toBe("end");
});

test.each([
  ["end", 0, 60, 0.5],
  ["start", 60, 60, -0.5],
  ["instant", 30, 60, 0],
] as const)("hours named by their %s", (label, endMin, spanMin, printed) => {
  const centroids = fileOf(FALLON, -8, "2015-06-01T08:00:00Z", endMin, spanMin);
  const found = clockOfData(centroids, FALLON, 1, { clock: "standard", label: null });
  expect(found.label).toBe(label);
  expectWithin(found.centroidH ?? Number.NaN, printed, 0.02);
});

test("a mean of the 15 min before the label stands at +0.12, under summer time at +1.12 by standard time", () => {
  const winter = fileOf(FALLON, -8, "2015-01-05T08:00:00Z", 0, 15);
  const summer = fileOf(FALLON, -7, "2015-07-05T07:00:00Z", 0, 15);
  const found = clockOfData([...winter, ...summer], FALLON, 1, said);
  expect(found).toMatchObject({ clock: "daylight", label: "instant", solarMeanH: 0.25 });
  // 7.5 minutes are 0.125 h; measured: +0.12.
  expectWithin(found.centroidH ?? Number.NaN, 0.12, 0.02);
  for (const { diffH } of summer) expectWithin(diffH + 8, 1.12, 0.03);
  for (const { diffH } of winter) expectWithin(diffH + 8, 0.12, 0.03);
});
