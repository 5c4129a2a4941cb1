import { expect } from "vitest";

/** Asserts that a value lies within the tolerance of the printed one. */
export function expectWithin(actual: number, printed: number, tolerance: number): void {
  expect(
    Math.abs(actual - printed),
    `got ${actual}, printed ${printed} within ${tolerance}`,
  ).toBeLessThanOrEqual(tolerance);
}

export const degrees = (deg: number, min = 0) => Math.sign(deg) * (Math.abs(deg) + min / 60);
