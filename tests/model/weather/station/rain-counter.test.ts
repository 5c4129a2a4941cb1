import { describe, expect, test } from "vitest";
import { amountsOfCounter, rainKindOf } from "../../../../model/weather/station/rain-counter.ts";

const MOST_MM = 150;
const HOURLY = Array.from({ length: 240 }, (_, i) => (i % 30 < 5 ? 0.5 * (i % 30) : 0));
const counterOf = (amounts: readonly number[], from = 0) => {
  let sum = from;
  return amounts.map((mm) => {
    sum += mm;
    return sum;
  });
};

describe("which column is a counter", () => {
  test("hours of rain are amounts, minutes with the hour's amount repeated too", () => {
    expect(rainKindOf(HOURLY)).toBe("amounts");
    const showers = HOURLY.map((mm) => (mm === 2 ? mm : 0));
    expect(rainKindOf(showers.flatMap((mm) => new Array<number>(12).fill(mm)))).toBe("amounts");
    expect(rainKindOf(new Array<number>(240).fill(0))).toBe("amounts");
    expect(rainKindOf([])).toBe("amounts");
  });
  test("a sum that rises through the file is a counter, oldest or newest first, without rain in it too", () => {
    expect(rainKindOf(counterOf(HOURLY, 79.756))).toBe("counter");
    expect(rainKindOf(counterOf(HOURLY, 79.756).toReversed())).toBe("counter");
    expect(rainKindOf(new Array<number>(240).fill(79.756))).toBe("counter");
  });
  test("one that is set back every day may be either", () => {
    let sum = 0;
    const daily = HOURLY.map((mm, i) => {
      sum = i % 24 === 0 ? mm : sum + mm;
      return sum;
    });
    expect(rainKindOf(daily)).not.toBe("amounts");
  });
});

describe("a counter's rain", () => {
  test("rises are rain; set back, it holds what fell since; the first row has none", () => {
    expect(amountsOfCounter([10, 10, 12.5, 0, 1.5], MOST_MM)).toEqual({
      amounts: [null, 0, 2.5, 0, 1.5],
      noise: 0,
      odd: [],
    });
  });
  test("dips of one tip at 2.00 in are noise: 3.6 mm stay 3.6 mm", () => {
    const readings = [50.8, 50.8, 50.546, 50.8, 52.4, 52.146, 52.4, 54.4].map((mm) => mm);
    const { amounts, noise } = amountsOfCounter(readings, MOST_MM);
    expect(amounts.reduce((sum: number, mm) => sum + (mm ?? 0), 0)).toBeCloseTo(3.6, 9);
    expect(noise).toBe(2);
  });
  test("a fall that is neither noise nor a reset, and a leap beyond any rain, are missing and named", () => {
    expect(amountsOfCounter([210, 150, 150, 400], MOST_MM)).toEqual({
      amounts: [null, null, 0, null],
      noise: 0,
      odd: [
        { index: 1, fromMm: 210, toMm: 150 },
        { index: 3, fromMm: 150, toMm: 400 },
      ],
    });
  });
  test("what fell while it was not read is given to no row", () => {
    expect(amountsOfCounter([1, null, 5, 6], MOST_MM).amounts).toEqual([null, null, null, 1]);
  });
});
