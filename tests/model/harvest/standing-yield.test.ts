import { expect, test } from "vitest";
import { SWATH_LIMITS } from "../../../model/drying/index.ts";
import {
  BARREN_CORN,
  STANDING_YIELD_LIMITS,
  yieldOfBales,
  yieldOfBarrenCorn,
  yieldOfStrip,
} from "../../../model/harvest/index.ts";

test("bales: twice as many, or twice as heavy, is twice the yield; water is none of it", () => {
  const one = yieldOfBales(10, 400, 0.15).dryMatterTHa;
  expect(one).toBeCloseTo(3.4, 12);
  expect(yieldOfBales(20, 400, 0.15).dryMatterTHa).toBeCloseTo(2 * one, 12);
  expect(yieldOfBales(10, 800, 0.15).dryMatterTHa).toBeCloseTo(2 * one, 12);
  expect(yieldOfBales(10, 400, 0.5).dryMatterTHa).toBeCloseTo(2, 12);
});

test("strip: only the weight on its area counts, not its shape", () => {
  const long = yieldOfStrip(20, 1, 40, 0.8).dryMatterTHa;
  expect(long).toBeCloseTo(4, 12);
  expect(yieldOfStrip(4, 5, 40, 0.8).dryMatterTHa).toBeCloseTo(long, 12);
  expect(yieldOfStrip(20, 1, 40, 0.6).dryMatterTHa).toBeCloseTo(2 * long, 12);
});

test("height: in proportion, inside its own range and inside what a swath may be", () => {
  const { min, max } = STANDING_YIELD_LIMITS.plantHeightCm;
  for (const heightCm of [min, 100, 200, max]) {
    const { dryMatterTHa, rangeTHa } = yieldOfBarrenCorn(heightCm);
    const [low, high] = rangeTHa ?? [Number.NaN, Number.NaN];
    expect(dryMatterTHa).toBeGreaterThanOrEqual(low - 1e-9);
    expect(dryMatterTHa).toBeLessThanOrEqual(high);
    expect(high).toBeLessThanOrEqual(SWATH_LIMITS.dryMatterTHa.max);
  }
  expect(yieldOfBarrenCorn(91.44).tooHigh).toBe(true);
  expect(yieldOfBarrenCorn(92).tooHigh).toBe(false);
});

test("every number of the rule has an origin and a source", () => {
  for (const { origin, source, unit } of Object.values(BARREN_CORN)) {
    expect(origin).toBe("published");
    expect(source.length).toBeGreaterThan(20);
    expect(unit).not.toBe("");
  }
});

test.each([
  () => yieldOfBales(Number.NaN, 400, 0.15),
  () => yieldOfBales(10, 4, 0.15),
  () => yieldOfBales(10, 400, 15),
  () => yieldOfStrip(0, 2, 40, 0.8),
  () => yieldOfStrip(10, 2, 40, 80),
  () => yieldOfBarrenCorn(5),
])("a caller's mistake is named (%#)", (wrong) => {
  expect(wrong).toThrow(/must be in \[/);
});
