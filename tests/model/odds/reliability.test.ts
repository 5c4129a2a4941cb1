import { expect, test } from "vitest";
import { brierParts } from "../../../model/odds/brier.ts";
import { LEAST_DAYS, shareWithConfidence, wilsonInterval } from "../../../model/odds/confidence.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { binsByDays } from "../../../model/odds/reliability.ts";

const day = (i: number) => new Date(Date.UTC(2026, 4, 1 + i)).toISOString().slice(0, 10);

test("in bins the parts add up to the score, what differs within a bin told apart", () => {
  const random = seededRandom(5);
  const told = Array.from({ length: 400 }, () => {
    const chance = random();
    return { chance, came: random() < chance };
  });
  const { brier, reliability, resolution, uncertainty, withinBins } = brierParts(told, 5);
  expect(reliability - resolution + uncertainty + withinBins).toBeCloseTo(brier, 12);
  // One bin a distinct chance takes the noise of each single outcome for reliability; of right chances it is near 0.
  expect(brierParts(told).reliability).toBeGreaterThan(0.1);
  expect(reliability).toBeLessThan(0.01);
  expect(resolution).toBeGreaterThan(0.05);
  // By hand, two bins: .1 and .3 with 0 and 1 come; .8 with 1. Within: (.01 + .01 - 2 (.05 + .05)) / 3.
  const parts = brierParts(
    [
      { chance: 0.1, came: false },
      { chance: 0.3, came: true },
      { chance: 0.8, came: true },
    ],
    2,
  );
  expect(parts.withinBins).toBeCloseTo((0.02 - 0.2) / 3, 12);
  expect(parts.reliability).toBeCloseTo((2 * 0.3 ** 2 + 0.2 ** 2) / 3, 12);
});

// By any table of the binomial: of 20 at a half 5.8 % lie under 7 and 2.1 % under 6, and as many above 13 and 14.
test("a bar is as wide as the days let it be, however often the same was told on each of them", () => {
  const of = (times: number) =>
    binsByDays(
      Array.from({ length: 20 * times }, (_, i) => ({ day: day(i % 20), chance: 0.5, came: i % 20 < 8 })),
      3,
    )[2];
  const [once, often] = [of(1), of(20)];
  expect(often).toMatchObject({ count: 400, days: 20, meanChance: 0.5, observedShare: 0.4 });
  expect(often?.right).toEqual(once?.right);
  const [low, high] = often?.right ?? [0, 0];
  expect(Math.abs(low - 0.3)).toBeLessThan(0.051);
  expect(Math.abs(high - 0.7)).toBeLessThan(0.051);
  expect(of(1)?.from).toBeCloseTo(0.4, 12);
});

test("a chance of 0 or 1 leaves nothing to chance, and an empty bin has no bar", () => {
  const bins = binsByDays(
    Array.from({ length: 30 }, (_, i) => ({ day: day(i), chance: i % 2, came: i % 2 === 1 })),
    1,
  );
  expect(bins.map(({ right }) => right)).toEqual([[0, 0], null, null, null, [1, 1]]);
  expect(bins.map(({ days }) => days)).toEqual([15, 0, 0, 0, 15]);
});

test("a share of all or none has a width: Wilson's interval by days", () => {
  // All of n: n / (n + z²), z² = 2.706.
  expect(wilsonInterval(1, 22)[0]).toBeCloseTo(22 / 24.7057, 4);
  expect(wilsonInterval(1, 22)[1]).toBe(1);
  expect(wilsonInterval(0, 22)[1]).toBeCloseTo(2.7057 / 24.7057, 4);
  expect(() => wilsonInterval(1.2, 5)).toThrow(/share must be in \[0, 1\]/);
  // Two readings a day: the days count.
  const all = shareWithConfidence(
    Array.from({ length: 44 }, (_, i) => ({ day: day(i % 22), score: 1 })),
    1,
  );
  expect(all.enough && [all.mean, all.p95]).toEqual([1, 1]);
  expect(all.enough && all.p5).toBeCloseTo(22 / 24.7057, 4);
  expect(shareWithConfidence([{ day: day(1), score: 1 }], 1)).toMatchObject({ enough: false, days: 1 });
  expect(LEAST_DAYS).toBe(20);
});
