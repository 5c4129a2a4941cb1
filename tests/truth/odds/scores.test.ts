import { expect, test } from "vitest";
import { brierParts } from "../../../model/odds/brier.ts";
import { actAbove, economicValue } from "../../../model/odds/cost-loss.ts";
import { crpsOfMembers, crpsOfNormal, fairCrpsOfMembers, pinball } from "../../../model/odds/scores.ts";

/**
 * Worked numbers of forecast verification: formulas from memory (Brier; Murphy 1973; ensemble and normal CRPS;
 * pinball; cost-loss after Richardson 2000, QJRMS 126:649), figures worked by hand and checked numerically elsewhere.
 * Tolerance: half of the last printed digit.
 */
const half = (digits: number) => 0.5 * 10 ** -digits + 1e-12;

test("Brier 0.15 = 0.016667 - 0.106667 + 0.24 for p = .8 .8 .3 .3 .3, o = 1 1 0 1 0", () => {
  const came = [true, true, false, true, false];
  const parts = brierParts(
    [0.8, 0.8, 0.3, 0.3, 0.3].map((chance, i) => ({ chance, came: came[i] === true })),
  );
  expect(Math.abs(parts.brier - 0.15)).toBeLessThan(1e-12);
  expect(Math.abs(parts.reliability - 0.016667)).toBeLessThan(half(6));
  expect(Math.abs(parts.resolution - 0.106667)).toBeLessThan(half(6));
  expect(Math.abs(parts.uncertainty - 0.24)).toBeLessThan(1e-12);
});

test.each([
  ["CRPS of members 20 24 30 against 22", crpsOfMembers([20, 24, 30], 22), 1.777778, 6],
  ["the fair form of it", fairCrpsOfMembers([20, 24, 30], 22), 0.666667, 6],
  ["CRPS of N(0, 1) against 0", crpsOfNormal(0, 1, 0), 0.233695, 7],
  ["CRPS of N(20, 2) against 23", crpsOfNormal(20, 2, 23), 1.988848, 7],
  ["pinball of 20 at 0.9 against 25", pinball(20, 0.9, 25), 4.5, 6],
  ["cost 30, loss 120: act above", actAbove({ cost: 30, loss: 120 }), 0.25, 6],
])("%s", (_what, ours, printed, digits) => {
  expect(Math.abs(ours - printed)).toBeLessThan(half(digits));
});

const COUNTS = { hits: 30, misses: 10, falseAlarms: 20, correctNegatives: 140 };

test("value 0.58333 of 30 hits, 10 misses, 20 false alarms, 140 correct negatives at 0.25", () => {
  expect(Math.abs((economicValue(COUNTS, 0.25) ?? 0) - 0.58333)).toBeLessThan(half(5));
});

test("value peaks where the ratio is the base rate, at hit rate less false-alarm rate (Richardson 2000)", () => {
  const peak = economicValue(COUNTS, 0.2) ?? 0;
  expect(Math.abs(peak - (30 / 40 - 20 / 160))).toBeLessThan(1e-12);
  for (const a of [0.05, 0.1, 0.19, 0.21, 0.3, 0.6]) expect(economicValue(COUNTS, a) ?? 0).toBeLessThan(peak);
});
