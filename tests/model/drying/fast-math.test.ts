import { expect, test } from "vitest";
import { fastExp, fastLog } from "../../../model/drying/fast-math.ts";

// The bounds are those of the functions' own comments: what their series leave out, and rounding.
test("fastExp is Math.exp to 1e-15 of the value, over its table and beyond", () => {
  let worst = 0;
  for (let x = -30; x <= 30; x += 0.000937) worst = Math.max(worst, Math.abs(fastExp(x) / Math.exp(x) - 1));
  expect(worst).toBeLessThan(1e-15);
});

test("fastLog is Math.log to 4e-15, over its table and beyond", () => {
  let worst = 0;
  for (let power = -34; power <= 33; power += 0.000937) {
    const x = 2 ** power;
    worst = Math.max(worst, Math.abs(fastLog(x) - Math.log(x)));
  }
  for (let x = 0.001; x < 10; x += 0.000173) worst = Math.max(worst, Math.abs(fastLog(x) - Math.log(x)));
  expect(worst).toBeLessThan(4e-15);
});

test.each([0, -0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e-320, 800, -800])(
  "at %f both answer as Math does",
  (x) => {
    expect(fastExp(x)).toBe(Math.exp(x));
    expect(fastLog(x)).toBe(Math.log(x));
  },
);
