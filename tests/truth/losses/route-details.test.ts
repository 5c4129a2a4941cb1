import { describe, expect, test } from "vitest";
import {
  BUTYRIC_BY_DELAY,
  CUTTING_HEIGHT,
  celsiusOf,
  cowDayM2,
  HEAT_TABLE,
  heatLog,
  packingWeightT,
  preservativeFor,
  STALK_NITRATE,
  stalkLeft,
  WRAPPING,
  waterToAddKgPerT,
  wholePlantPpm,
} from "../../../model/harvest/route-details/index.ts";

/** Worked numbers of print on route details, each with where it stands. */

const LB_KG = 0.45359237;

test("plant parts (Walsh & Schulte 1970, from memory; shares assumed): 977 whole, a lower third with 85 %, 175 without it", () => {
  expect(Math.abs(wholePlantPpm() - 977)).toBeLessThan(0.5);
  const { lower } = STALK_NITRATE;
  expect((lower.ppm.value * lower.dryShare.value) / wholePlantPpm()).toBeCloseTo(0.85, 2);
  const left = stalkLeft(1 / 3);
  expect(left.dryShare).toBeCloseTo(0.85, 9);
  expect(Math.abs(left.ppmShare * wholePlantPpm() - 175)).toBeLessThan(1);
});

test("a high cut of corn silage, 6.8 to 19.3 in (Penn State 2023): 7 % less, 2.2 points drier", () => {
  const raisedCm = (19.3 - 6.8) * 2.54;
  expect(Math.abs(CUTTING_HEIGHT.cornPctPerCm.value * raisedCm - 7)).toBeLessThan(0.5);
  expect(CUTTING_HEIGHT.cornPointsPerCm.value * raisedCm).toBeCloseTo(2.2, 9);
});

test("water for one point near 65 %: 57 lb a short ton (exact arithmetic)", () => {
  expect(Math.abs(waterToAddKgPerT(0.64, 0.65) * 0.90718474 - 57 * LB_KG)).toBeLessThan(0.5 * LB_KG);
});

test("packing: 800 lb for each short ton an hour (Ag Proud)", () => {
  const tonsPerH = 50;
  expect(packingWeightT(tonsPerH * 0.90718474) * 1000).toBeCloseTo(800 * tonsPerH * LB_KG, 6);
});

test("tall corn: 435.6 square feet a cow and day (Nebraska, 100 cows an acre)", () => {
  expect(cowDayM2() / 0.3048 ** 2).toBeCloseTo(435.6, 6);
});

// Kentucky: 10 lb a short ton at 20-25 %, 20 lb at 26-30 %.
test.each([
  [0.22, 10],
  [0.28, 20],
])("preservative at %f", (wb, lb) => {
  expect((preservativeFor("small-square", wb).share ?? 0) * 2000).toBeCloseTo(lb, 9);
});

// Purdue, Penn State and Kentucky, as printed in both scales.
test.each([
  [125, 52],
  [150, 66],
  [160, 71],
  [175, 79],
  [190, 88],
  [200, 93],
])("action table %d °F = %d °C", (f, c) => {
  expect(HEAT_TABLE.some(({ fromF }) => fromF === f)).toBe(true);
  expect(Math.round(celsiusOf(f))).toBe(c);
});

describe("heating degree days, base 30 °C = 86 °F", () => {
  test("two days at 40 and 50 °C are 30 °C days, 54 °F days", () => {
    const log = heatLog([
      { atUtcMs: 0, tempC: 40 },
      { atUtcMs: 86_400_000, tempC: 50 },
    ]);
    expect(log?.heatingDegreeDaysC).toBe(30);
    expect((log?.heatingDegreeDaysC ?? 0) * 1.8).toBeCloseTo(104 - 86 + (122 - 86), 9);
    expect(celsiusOf(86)).toBe(30);
  });
});

test("butyric acid by delay (field trial): none, 0.2, 0.55 %; 1400 lb bales tear film (Wisconsin)", () => {
  expect(BUTYRIC_BY_DELAY.map(({ pct }) => pct)).toEqual([0, 0.2, 0.55]);
  expect(WRAPPING.tearsKg.value).toBeCloseTo(635.03, 2);
});
