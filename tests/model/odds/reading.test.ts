import fc from "fast-check";
import { expect, test } from "vitest";
import type { MoistureCourse } from "../../../model/drying/course-columns.ts";
import type { ReadingMethod, ReadingRequest } from "../../../model/drying/request.ts";
import {
  bendToReadings,
  drawSample,
  effectiveSampleSize,
  FORGETTING,
  learnRate,
  logLikelihood,
  READING_METHODS,
  readingSdWb,
  resample,
  seededRandom,
  temperedWeights,
  uncertaintyOf,
  withLearnedRate,
} from "../../../model/odds/index.ts";
import { normalAtShare } from "../../../model/odds/normal.ts";

const atUtc = "2026-07-02T19:00:00Z";
const oven = (moistureWb: number): ReadingRequest => ({ atUtc, moistureWb, method: "oven" });
const weighed = (moistures: readonly number[], reading: ReadingRequest, sdWb = readingSdWb(reading.method)) =>
  temperedWeights(moistures.map((wb) => logLikelihood(wb, reading, sdWb))).weights;
const draws = (mean: number, sd: number, count: number) =>
  Array.from({ length: count }, (_, i) => mean + sd * normalAtShare((i + 0.5) / count));

test("reweighting gives the textbook posterior of two normals", () => {
  // Prior N(0.50, 0.04), reading 0.46 by oven from three grabs: the precision-weighted mean, worked from the formula.
  const prior = draws(0.5, 0.04, 4000);
  const sd = readingSdWb("oven", 3);
  const weights = weighed(prior, oven(0.46), sd);
  const variance = 1 / (1 / 0.04 ** 2 + 1 / sd ** 2);
  const expected = variance * (0.5 / 0.04 ** 2 + 0.46 / sd ** 2);
  const mean = prior.reduce((sum, x, i) => sum + x * (weights[i] as number), 0);
  const spread = Math.sqrt(prior.reduce((sum, x, i) => sum + (weights[i] as number) * (x - mean) ** 2, 0));
  expect(mean).toBeCloseTo(expected, 4);
  expect(spread).toBeCloseTo(Math.sqrt(variance), 4);
});

test("variance of method and places add: oven 0.5 point, 3 grabs of 3 points", () => {
  expect(readingSdWb("oven", 3)).toBeCloseTo(Math.sqrt(0.005 ** 2 + 0.03 ** 2 / 3), 12);
  expect(readingSdWb("oven", 1000)).toBeLessThan(0.0052);
  expect(() => readingSdWb("oven", 0)).toThrow(RangeError);
});

test("weights add to 1 and the effective size lies between 1 and the count", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.05, max: 0.9, noNaN: true }), { minLength: 1, maxLength: 60 }),
      fc.double({ min: 0.05, max: 0.9, noNaN: true }),
      fc.constantFrom(...(Object.keys(READING_METHODS) as ReadingMethod[])),
      (moistures, moistureWb, method) => {
        const weights = weighed(moistures, { atUtc, moistureWb, method });
        expect(weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
        expect(effectiveSampleSize(weights)).toBeGreaterThan(1 - 1e-9);
        expect(effectiveSampleSize(weights)).toBeLessThan(moistures.length + 1e-6);
      },
    ),
  );
});

test("a hand squeeze is an interval: what lies inside weighs alike, what lies far out little", () => {
  const squeeze: ReadingRequest = { atUtc, range: [0.6, 0.7], method: "hand-squeeze" };
  const weights = weighed([0.64, 0.66, 0.8, 0.5], squeeze);
  const [low, high, wet, dry] = weights as [number, number, number, number];
  // The interval is symmetric about 0.65, so mirrored moistures weigh the same.
  expect(low).toBeCloseTo(high, 12);
  expect(wet).toBeCloseTo(dry, 12);
  expect(wet).toBeLessThan(low / 10);
});

test("resampling: each draw as often as its weight says, within one", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 1, maxLength: 60 }),
      fc.integer(),
      (raw, seed) => {
        const sum = raw.reduce((a, b) => a + b, 0);
        const weights = raw.map((w) => w / sum);
        const picked = resample(weights, seededRandom(seed));
        expect(picked).toHaveLength(weights.length);
        weights.forEach((w, i) => {
          const times = picked.filter((at) => at === i).length;
          expect(Math.abs(times - w * weights.length)).toBeLessThan(1 + 1e-6);
        });
      },
    ),
  );
});

test("effective size by hand: equal 4 -> 4, all on one -> 1, halves -> 2", () => {
  expect(effectiveSampleSize([0.25, 0.25, 0.25, 0.25])).toBe(4);
  expect(effectiveSampleSize([0, 1, 0])).toBe(1);
  expect(effectiveSampleSize([0.5, 0.5, 0])).toBe(2);
});

test("what was learned is tomorrow's prior, half counts after the half-life, and all is forgotten in the end", () => {
  const prior = uncertaintyOf("alfalfa");
  const learned = learnRate([1.2, 1.3, 1.25], [0.25, 0.25, 0.5], 0);
  const day = 86_400_000;
  const now = withLearnedRate(prior, learned, 0);
  expect(now.rateLnMean).toBeCloseTo(learned.lnMean, 12);
  expect(now.rateLnSd).toBeCloseTo(learned.lnSd, 12);
  const later = withLearnedRate(prior, learned, FORGETTING.halfLifeDays.value * day);
  expect(later.rateLnMean).toBeCloseTo(learned.lnMean / 2, 12);
  const long = withLearnedRate(prior, learned, 1000 * day);
  expect(long.rateLnMean).toBeCloseTo(0, 6);
  expect(long.rateLnSd).toBeCloseTo(prior.rateLnSd, 6);
  const draws = drawSample({ initialMoistureWb: 0.78, dryMatterTHa: 3, soil: "dry" }, now, 51, 1);
  expect(draws.reduce((sum, { rateFactor }) => sum + rateFactor, 0) / 51).toBeCloseTo(1.25, 1);
});

test("the bent course lies on the soil that most of the weight lies on", () => {
  const swath = {
    crop: "alfalfa",
    dryMatterTHa: 3,
    initialMoistureWb: 0.8,
    conditioning: "roll",
    coveredFraction: 0.7,
    stubbleCm: 8,
    soil: "dry",
  } as const;
  const cutUtcMs = Date.parse(atUtc) - 3_600_000;
  const drawn = Array.from({ length: 40 }, (_, i) => {
    const wet = i % 4 === 0;
    const course = {
      startUtcMs: cutUtcMs,
      cutUtcMs,
      count: 1,
      moistureWb: Float64Array.of(wet ? 0.76 : 0.6),
    };
    const draw = {
      rateFactor: 1,
      initialMoistureWb: 0.8,
      dryMatterTHa: 3,
      soil: wet ? "wet" : "dry",
    } as const;
    return { draw, course: course as unknown as MoistureCourse };
  });
  const soilOf = (moistureWb: number) =>
    bendToReadings(drawn, swath, [{ ...oven(moistureWb), confirmed: true }], 1).centre.swath.soil;
  expect([soilOf(0.76), soilOf(0.6)]).toEqual(["wet", "dry"]);
});
