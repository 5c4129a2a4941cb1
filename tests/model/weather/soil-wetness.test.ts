import { expect, test } from "vitest";
import {
  bucketAfterHour,
  SOIL_BUCKET,
  soilOfFullness,
  soilWetness,
} from "../../../model/weather/soil-wetness.ts";
import { makeSeries } from "./make-series.ts";

const DAY_H = 24;
const END = Date.parse("2026-07-11T05:00:00Z");
const rained = (mm: number, hour: number, count = 10 * DAY_H) => {
  const series = makeSeries({ count });
  return {
    ...series,
    hours: { ...series.hours, rainMm: series.hours.rainMm.map((_, i) => (i === hour ? mm : 0)) },
  };
};

test("an hour of the bucket, by hand: 20 mm hold, 11 mm slow it, seven tenths of reference ET leave it", () => {
  // 15 + 10 fills it to 20, and 0.7 x 0.5 leaves.
  expect(bucketAfterHour(15, 10, 0.5)).toBeCloseTo(19.65, 10);
  // 5.5 of 11 mm: half the rate.
  expect(bucketAfterHour(5.5, 0, 0.4)).toBeCloseTo(5.5 - 0.14, 10);
  expect(bucketAfterHour(0, 0, 1)).toBe(0);
});

test("ten dry days of July leave dry soil, and heavy rain yesterday wet soil", () => {
  const dry = soilWetness(rained(0, 0), END);
  const wet = soilWetness(rained(30, 9.5 * DAY_H), END);
  expect(dry).toMatchObject({ found: true, soil: "dry", days: 10, rainMm: 0 });
  expect(wet).toMatchObject({ found: true, soil: "wet", rainMm: 30 });
  expect(dry.found && dry.assumption).toContain("assumed half full");
});

test("the more rain and the later, the wetter", () => {
  const fullness = (mm: number, hour: number) => {
    const soil = soilWetness(rained(mm, hour), END);
    return soil.found ? soil.fullness : Number.NaN;
  };
  expect(fullness(5, 200)).toBeLessThan(fullness(10, 200));
  expect(fullness(10, 150)).toBeLessThan(fullness(10, 200));
  expect(fullness(140, 239)).toBeLessThanOrEqual(1);
});

test("classes begin where their records say", () => {
  expect(soilOfFullness(SOIL_BUCKET.wetFrom.value)).toBe("wet");
  expect(soilOfFullness(SOIL_BUCKET.moistFrom.value)).toBe("moist");
  expect(soilOfFullness(SOIL_BUCKET.moistFrom.value - 1e-9)).toBe("dry");
});

test("nothing is said of two days, nor of rain that nobody measured", () => {
  expect(soilWetness(rained(0, 0, 48), Date.parse("2026-07-03T05:00:00Z"))).toEqual({
    found: false,
    why: "too-few-days",
  });
  const series = rained(0, 0);
  const unknown = { ...series, hours: { ...series.hours, rainMm: series.hours.rainMm.map(() => null) } };
  expect(soilWetness(unknown, END)).toEqual({ found: false, why: "rain-unknown" });
});
