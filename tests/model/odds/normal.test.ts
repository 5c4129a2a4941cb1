import fc from "fast-check";
import { expect, test } from "vitest";
import { normalAtShare, normalShareBelow } from "../../../model/odds/normal.ts";

// Printed in any table of the normal curve, five digits.
test.each([
  [0, 0.5],
  [1, 0.84134],
  [1.96, 0.975],
  [-1.28155, 0.1],
])("share below %f is %f", (z, share) => {
  expect(Math.abs(normalShareBelow(z) - share)).toBeLessThan(5e-6);
});

test("the inverse gives the share back", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (share) => {
      expect(Math.abs(normalShareBelow(normalAtShare(share)) - share)).toBeLessThan(1e-8);
    }),
  );
  expect(() => normalAtShare(0)).toThrow(RangeError);
  expect(() => normalAtShare(Number.NaN)).toThrow(RangeError);
});
