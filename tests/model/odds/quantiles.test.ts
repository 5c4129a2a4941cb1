import fc from "fast-check";
import { quantile } from "simple-statistics";
import { expect, test } from "vitest";
import {
  courseBands,
  neverShare,
  quantileOfSorted,
  quantiles,
  quantilesOrNever,
} from "../../../model/odds/index.ts";

const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 60 });

test("type 7: the library's linear quantile, for any values and share", () => {
  fc.assert(
    fc.property(numbers, fc.double({ min: 0, max: 1, noNaN: true }), (values, share) => {
      const sorted = [...values].sort((a, b) => a - b);
      expect(quantileOfSorted(sorted, share)).toBeCloseTo(quantile(values, share), 6);
    }),
  );
});

test("the told quantiles rise, and lie among the values", () => {
  fc.assert(
    fc.property(numbers, (values) => {
      const { p10, p25, p50, p75, p90 } = quantiles(values);
      const told = [Math.min(...values), p10, p25, p50, p75, p90, Math.max(...values)];
      for (let i = 1; i < told.length; i++)
        expect(told[i] as number).toBeGreaterThanOrEqual((told[i - 1] as number) - 1e-6);
    }),
  );
});

test("a quantile among the never-reached is null, by hand", () => {
  const hours = [50, 52, 54, 56, null];
  expect(quantilesOrNever(hours)).toEqual({ p10: 50.8, p25: 52, p50: 54, p75: 56, p90: null });
  expect(neverShare(hours)).toBe(0.2);
  expect(quantilesOrNever([null, null]).p10).toBeNull();
  expect(quantilesOrNever([]).p50).toBeNull();
  expect(neverShare([])).toBeNull();
});

test("bands are the quantiles of each hour", () => {
  const bands = courseBands([
    [1, 30],
    [2, 10],
    [3, 20],
  ]);
  expect([...bands.p50]).toEqual([2, 20]);
  expect([...bands.p25]).toEqual([1.5, 15]);
  expect(() => courseBands([[1], [1, 2]])).toThrow(/equally long/);
  expect(() => courseBands([])).toThrow(RangeError);
});
