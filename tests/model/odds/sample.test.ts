import fc from "fast-check";
import { expect, test } from "vitest";
import { SWATH_LIMITS } from "../../../model/drying/index.ts";
import {
  drawSample,
  rateLnSdWithOpinions,
  seededRandom,
  UNCERTAINTY,
  uncertaintyOf,
} from "../../../model/odds/index.ts";
import { stratifiedShares } from "../../../model/odds/sample.ts";

const swath = { initialMoistureWb: 0.78, dryMatterTHa: 3.2, soil: "moist" } as const;

test("each stratum holds exactly one share", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 300 }), fc.integer(), (count, seed) => {
      const strata = stratifiedShares(count, seededRandom(seed)).map((share) => Math.floor(share * count));
      expect(strata.sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
    }),
  );
});

test("the same seed draws the same, another one does not", () => {
  const draw = (seed: number) => drawSample(swath, uncertaintyOf("alfalfa"), 51, seed);
  expect(draw(7)).toEqual(draw(7));
  expect(draw(7)).not.toEqual(draw(8));
});

test("51 draws have the spreads that the records state", () => {
  const draws = drawSample(swath, uncertaintyOf("alfalfa"), 51, 1);
  const mean = (of: readonly number[]) => of.reduce((a, b) => a + b, 0) / of.length;
  const sd = (of: readonly number[]) => Math.sqrt(mean(of.map((x) => (x - mean(of)) ** 2)));
  // Stratified: the error of a margin is far below that of 51 random draws (about 10 %).
  const lns = draws.map(({ rateFactor }) => Math.log(rateFactor));
  expect(Math.abs(mean(lns))).toBeLessThan(0.01);
  expect(sd(lns) / UNCERTAINTY.rateLnSd.value).toBeCloseTo(1, 1);
  const wb = draws.map(({ initialMoistureWb }) => initialMoistureWb);
  expect(mean(wb)).toBeCloseTo(0.78, 3);
  expect(sd(wb) / UNCERTAINTY.initialMoistureSdWb.value).toBeCloseTo(1, 1);
  expect(mean(draws.map(({ dryMatterTHa }) => dryMatterTHa))).toBeCloseTo(3.2, 1);
  const other = draws.filter(({ soil }) => soil !== "moist").length / 51;
  expect(Math.abs(other - 0.3)).toBeLessThan(0.03);
});

test("no draw leaves what a swath can be", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 0.92, noNaN: true }),
      fc.double({ min: 0.1, max: 30, noNaN: true }),
      fc.constantFrom("dry" as const, "moist" as const, "wet" as const),
      fc.integer(),
      (initialMoistureWb, dryMatterTHa, soil, seed) => {
        const draws = drawSample(
          { initialMoistureWb, dryMatterTHa, soil },
          uncertaintyOf("drought-corn"),
          21,
          seed,
        );
        for (const draw of draws) {
          expect(draw.initialMoistureWb).toBeGreaterThanOrEqual(SWATH_LIMITS.initialMoistureWb.min);
          expect(draw.initialMoistureWb).toBeLessThanOrEqual(SWATH_LIMITS.initialMoistureWb.max);
          expect(draw.dryMatterTHa).toBeGreaterThan(0);
          expect(draw.dryMatterTHa).toBeLessThanOrEqual(SWATH_LIMITS.dryMatterTHa.max);
          expect(draw.rateFactor).toBeGreaterThan(0);
        }
      },
    ),
  );
});

test("opinions that disagree widen the rate, those that agree leave it", () => {
  const own = UNCERTAINTY.rateLnSd.value;
  expect(rateLnSdWithOpinions([])).toBe(own);
  expect(rateLnSdWithOpinions([1, 1])).toBeCloseTo(own, 12);
  // ln of 1, e^0.3, e^-0.3: variance 0.06.
  expect(rateLnSdWithOpinions([Math.exp(0.3), Math.exp(-0.3)])).toBeCloseTo(
    Math.hypot(own, Math.sqrt(0.06)),
    12,
  );
  expect(rateLnSdWithOpinions([Number.NaN, 0])).toBe(own);
});
