import { expect, test } from "vitest";
import { leadOf, studentT95 } from "../../../model/harvest/lead.ts";

// By hand: differences 1, 3, 5 have mean 3 and standard deviation 2, so a standard error of 2 over the root of 3.
test("a lead and its standard error are those of the differences draw by draw", () => {
  const { perHa, sePerHa, equal } = leadOf([101, 203, 305], [100, 200, 300]);
  expect([perHa, sePerHa]).toEqual([3, expect.closeTo(2 / Math.sqrt(3), 12)]);
  expect(equal).toBe(true);
  expect(leadOf([1, 3, 5, 1, 3, 5], [0, 0, 0, 0, 0, 0]).equal).toBe(false);
  expect(leadOf([1, 2], [1, 2])).toEqual({ perHa: 0, sePerHa: 0, withinPerHa: 0, equal: true });
});

// By hand: members 1 and 2 twice each; their means of the differences are 2 and 6, mean 4, standard deviation root 8, error 2.
test("draws in the weather of one member count as one; one alone tells no error", () => {
  expect(leadOf([1, 5, 3, 7], [0, 0, 0, 0], 2)).toEqual({
    perHa: 4,
    sePerHa: expect.closeTo(2, 12),
    withinPerHa: expect.closeTo(25.412, 9),
    equal: true,
  });
  expect(leadOf([4], [1])).toEqual({ perHa: 3, sePerHa: null, withinPerHa: null, equal: null });
});

// Student's t by any table: 5 degrees of freedom 2.571, 20 2.086, 60 2.000, 199 1.972.
test("few members count by Student's t: three of them need a lead of more than four errors", () => {
  for (const [freedom, t] of [
    [1, 12.706],
    [2, 4.303],
    [5, 2.571],
    [20, 2.086],
    [60, 2],
    [199, 1.972],
  ] as const)
    expect(studentT95(freedom + 1)).toBeCloseTo(t, 2);
  // Mean 3, error 1.15: past twice it, and not past 4.303 of it.
  expect(leadOf([1, 3, 5], [0, 0, 0])).toMatchObject({
    equal: true,
    withinPerHa: expect.closeTo(4.97, 2),
  });
});
