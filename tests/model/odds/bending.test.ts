import { expect, test } from "vitest";
import { runCourse } from "../../../model/drying/course.ts";
import type { SwathRequest } from "../../../model/drying/request.ts";
import {
  courseBands,
  drawSample,
  equalWeights,
  logLikelihood,
  parametersOfDraw,
  readingSdWb,
  resample,
  seededRandom,
  swathOfDraw,
  temperedWeights,
  uncertaintyOf,
} from "../../../model/odds/index.ts";
import { normalAtShare } from "../../../model/odds/normal.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const prepared = prepareWeather(inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 96));
if (!prepared.ok) throw new Error("the invented spell must be usable");
const { weather } = prepared.value;
const swath: SwathRequest = {
  crop: "alfalfa",
  dryMatterTHa: 3.5,
  initialMoistureWb: 0.79,
  conditioning: "roll",
  coveredFraction: 0.6,
  stubbleCm: 8,
  soil: "dry",
};
const cutUtcMs = Date.parse("2026-07-01T15:00:00Z");
/** The evening of the day of the cut, half way to the second evening. */
const READING_HOUR = 9;
const LAST_HOUR = 34;

/** The weights of draws after one reading of the oven. */
const weighed = (moistures: readonly number[], moistureWb: number) => {
  const reading = { atUtc: "2026-07-02T00:00:00Z", moistureWb, method: "oven" } as const;
  return temperedWeights(moistures.map((wb) => logLikelihood(wb, reading, readingSdWb("oven")))).weights;
};

const coursesOf = (count: number, seed: number) =>
  drawSample(swath, uncertaintyOf("alfalfa"), count, seed).map(
    (draw) => runCourse(weather, swathOfDraw(swath, draw), cutUtcMs, [], parametersOfDraw(draw)).moistureWb,
  );

test("in known weather one oven reading half way takes at least 40 % off the rms error of the rest of the course", () => {
  const draws = coursesOf(200, 1);
  const random = seededRandom(3);
  const sd = readingSdWb("oven");
  const error = { before: 0, after: 0 };
  const mean = (weights: readonly number[], hour: number) =>
    draws.reduce((sum, course, i) => sum + (weights[i] as number) * (course[hour] as number), 0);
  const prior = equalWeights(draws.length);
  for (const truth of coursesOf(60, 2)) {
    const moistureWb = (truth[READING_HOUR] as number) + sd * normalAtShare(Math.max(1e-9, random()));
    const at = draws.map((course) => course[READING_HOUR] as number);
    const weights = weighed(at, moistureWb);
    for (let hour = READING_HOUR + 1; hour < LAST_HOUR; hour++) {
      error.before += (mean(prior, hour) - (truth[hour] as number)) ** 2;
      error.after += (mean(weights, hour) - (truth[hour] as number)) ** 2;
    }
  }
  expect(Math.sqrt(error.after / error.before)).toBeLessThan(0.6);
});

test("after a reading the resampled bands are narrower, and the course bends to it", () => {
  const draws = coursesOf(200, 1);
  const before = courseBands(draws);
  const at = draws.map((course) => course[READING_HOUR] as number);
  const moistureWb = before.p90[READING_HOUR] as number;
  const weights = weighed(at, moistureWb);
  const after = courseBands(resample(weights, seededRandom(4)).map((i) => draws[i] as Float64Array));
  const width = (bands: typeof before, hour: number) =>
    (bands.p90[hour] as number) - (bands.p10[hour] as number);
  for (const hour of [READING_HOUR, READING_HOUR + 16, READING_HOUR + 20]) {
    expect(width(after, hour)).toBeLessThan(width(before, hour));
    expect(after.p50[hour]).toBeGreaterThan(before.p50[hour] as number);
  }
});
