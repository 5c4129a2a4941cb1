import fc from "fast-check";
import { expect, test } from "vitest";
import {
  actAbove,
  bias,
  brierParts,
  chancePercent,
  crpsOfMembers,
  crpsOfNormal,
  cutRule,
  inTen,
  meanAbsoluteError,
  pinball,
  quantileOfSorted,
  reliabilityBins,
  scoreWithConfidence,
  wholePercent,
} from "../../../model/odds/index.ts";
import { normalAtShare } from "../../../model/odds/normal.ts";

const outcomes = fc.array(
  fc.record({ chance: fc.integer({ min: 0, max: 51 }).map((k) => k / 51), came: fc.boolean() }),
  { minLength: 1, maxLength: 200 },
);
const members = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 51 });
const value = fc.double({ min: 0, max: 100, noNaN: true });

test("Murphy's parts close for any outcomes, and the bins hold them all", () => {
  fc.assert(
    fc.property(outcomes, (all) => {
      const { brier, reliability, resolution, uncertainty } = brierParts(all);
      expect(reliability - resolution + uncertainty).toBeCloseTo(brier, 9);
      expect(reliabilityBins(all, 7).reduce((sum, { count }) => sum + count, 0)).toBe(all.length);
    }),
  );
});

test("an empty bin says null, never 0", () => {
  const bins = reliabilityBins([{ chance: 1, came: true }]);
  expect(bins[0]).toEqual({ from: 0, to: 0.2, count: 0, meanChance: null, observedShare: null });
  expect(bins[4]).toMatchObject({ count: 1, meanChance: 1, observedShare: 1 });
});

test("CRPS of members is the sum over pairs as written, and of one value the absolute error", () => {
  fc.assert(
    fc.property(members, value, (xs, y) => {
      const m = xs.length;
      const away = xs.reduce((sum, x) => sum + Math.abs(x - y), 0) / m;
      const pairs = xs.reduce((sum, a) => sum + xs.reduce((inner, b) => inner + Math.abs(a - b), 0), 0);
      expect(crpsOfMembers(xs, y)).toBeCloseTo(away - pairs / (2 * m * m), 8);
      expect(crpsOfMembers([y + 3], y)).toBeCloseTo(3, 9);
    }),
  );
});

test("CRPS is twice the pinball loss over all shares, and members of a normal near its closed form", () => {
  const sorted = Array.from({ length: 2000 }, (_, i) => 20 + 2 * normalAtShare((i + 0.5) / 2000));
  let sum = 0;
  for (let k = 0; k < 2000; k++) {
    const tau = (k + 0.5) / 2000;
    sum += (2 * pinball(quantileOfSorted(sorted, tau), tau, 23)) / 2000;
  }
  expect(sum).toBeCloseTo(crpsOfNormal(20, 2, 23), 2);
  expect(crpsOfMembers(sorted, 23)).toBeCloseTo(crpsOfNormal(20, 2, 23), 2);
});

test("bias and mean absolute error, by hand", () => {
  expect(bias([0.3, 0.5], [0.2, 0.7])).toBeCloseTo(-0.05, 12);
  expect(meanAbsoluteError([0.3, 0.5], [0.2, 0.7])).toBeCloseTo(0.15, 12);
  expect(() => bias([], [])).toThrow(RangeError);
});

test("cut when the chance is above what waiting and rain cost", () => {
  expect(cutRule(0.52, 65, 100)).toEqual({
    cutAbove: 0.35,
    chance: 0.52,
    cut: true,
    text: "cut when the chance is above 35 %: it is 52 %",
  });
  expect(cutRule(0.3, 65, 100).cut).toBe(false);
  // Nearly sure is not sure: 1 of 1000 leaves 99.9 %.
  expect(cutRule(0.96, 1, 1000)).toMatchObject({
    cut: false,
    text: "cut when the chance is above 99.9 %: it is 96 %",
  });
  expect(cutRule(0.001, 999, 1000)).toMatchObject({
    cut: false,
    text: "cut when the chance is above 0.1 %: it is just that",
  });
  // What reads the same in whole per cents is told apart by a decimal, and where that reads the same by words.
  expect(cutRule(0.9615, 4.1, 100)).toMatchObject({
    cut: true,
    text: "cut when the chance is above 95.9 %: it is 96.2 %",
  });
  expect(cutRule(0.9601, 4, 100)).toMatchObject({
    cut: true,
    text: "cut when the chance is above 96 %: it is a shade more",
  });
  expect(cutRule(0.9599, 4, 100)).toMatchObject({
    cut: false,
    text: "cut when the chance is above 96 %: it is a shade less",
  });
  expect(cutRule(0.96, 4, 100)).toMatchObject({
    cut: false,
    text: "cut when the chance is above 96 %: it is just that",
  });
  // "Above 0 %" and "above 100 %" are no rules that anyone can go by.
  expect(cutRule(0, 200, 100)).toMatchObject({
    cut: true,
    text: "waiting costs as much as rain would, or more: cut at any chance (it is 0 %)",
  });
  expect(cutRule(0.52, 0, 100)).toMatchObject({
    cut: false,
    text: "waiting costs nothing: wait whatever the chance (it is 52 %)",
  });
  expect(actAbove({ cost: 30, loss: 150, residualLoss: 30 })).toBe(0.25);
  expect(() => actAbove({ cost: 30, loss: 30, residualLoss: 30 })).toThrow(RangeError);
});

test("the cost-loss rule spends least on average when the chance is true", () => {
  fc.assert(
    fc.property(value, value, fc.double({ min: 0, max: 1, noNaN: true }), (cost, more, chance) => {
      const loss = cost + more + 1;
      const act = chance > actAbove({ cost, loss });
      expect(act ? cost : chance * loss).toBeLessThanOrEqual(Math.min(cost, chance * loss) + 1e-9);
    }),
  );
});

test.each([
  [0, "under 1 in 10"],
  [0.02, "under 1 in 10"],
  [0.7, "7 in 10"],
  [0.97, "over 9 in 10"],
  [0.95, "over 9 in 10"],
  [1, "over 9 in 10"],
])("a chance of %f is told as %s", (chance, words) => {
  expect(inTen(chance)).toBe(words);
});

test("in per cents the ends stay open as well", () => {
  expect([0, 0.004, 0.006, 0.52, 0.994, 0.996, 1].map(wholePercent)).toEqual([
    "<1",
    "<1",
    "1",
    "52",
    "99",
    ">99",
    ">99",
  ]);
  expect([0, 0.52, 1].map(chancePercent)).toEqual(["under 1 %", "52 %", "over 99 %"]);
});

const day = (i: number) => new Date(Date.UTC(2026, 5, 1 + i)).toISOString().slice(0, 10);

test("under 20 days it is too few to say, however many readings a day", () => {
  const scores = Array.from({ length: 190 }, (_, i) => ({ day: day(i % 19), score: i }));
  expect(scoreWithConfidence(scores, 1)).toMatchObject({ enough: false, days: 19, scores: 190 });
  expect(scoreWithConfidence([], 1).enough).toBe(false);
});

test("confidence is by days: ten equal readings a day are worth no more than one", () => {
  const one = Array.from({ length: 40 }, (_, i) => ({ day: day(i), score: (i * 7) % 11 }));
  const ten = one.flatMap((score) => Array.from({ length: 10 }, () => score));
  const [a, b] = [scoreWithConfidence(one, 3), scoreWithConfidence(ten, 3)];
  expect(a).toEqual(scoreWithConfidence(one, 3));
  if (!a.enough || !b.enough) throw new Error("40 days must be enough");
  expect(b.mean).toBeCloseTo(a.mean, 9);
  expect([b.p5, b.p95]).toEqual([expect.closeTo(a.p5, 9), expect.closeTo(a.p95, 9)]);
  expect(a.p5).toBeLessThan(a.mean);
  expect(a.p95).toBeGreaterThan(a.mean);
});
