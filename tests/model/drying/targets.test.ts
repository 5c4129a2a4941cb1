import { describe, expect, test } from "vitest";
import { runCourse } from "../../../model/drying/course.ts";
import { withoutRain } from "../../../model/drying/drydown.ts";
import type { MoisturePath } from "../../../model/drying/targets.ts";
import { reaches, targetAnswer } from "../../../model/drying/targets.ts";
import type { HourlyWeather } from "../../../model/weather/hourly.ts";
import { CLOUDY_WET, SUNNY_DRY } from "../../truth/drying/checks.ts";
import { repeatedDays, STANDARD_SWATH, START_MS, steady } from "../../truth/drying/conditions.ts";

const HOUR_MS = 3_600_000;

function path(moistureWb: number[], cutShare = 0): MoisturePath {
  return {
    startUtcMs: START_MS,
    cutUtcMs: START_MS + cutShare * HOUR_MS,
    moistureWb: Float64Array.from(moistureWb),
  };
}

function answer(weather: HourlyWeather, targetWb: number, cutHour = 9, swath = {}) {
  const asked = { ...STANDARD_SWATH, coveredFraction: 0.7, ...swath };
  const cut = START_MS + cutHour * HOUR_MS;
  const course = runCourse(weather, asked, cut, []);
  return targetAnswer(course, asked.initialMoistureWb, targetWb, {
    weather,
    course,
    withoutRain: () => runCourse(withoutRain(weather), asked, cut, []),
  });
}

describe("reaching a moisture", () => {
  test("is interpolated inside the hour", () => {
    expect(reaches(path([0.7, 0.6]), 0.8, 0.65)?.atUtcMs).toBeCloseTo(START_MS + 1.5 * HOUR_MS, 3);
  });
  test("counts from a cut inside the hour", () => {
    const hit = reaches(path([0.7, 0.6], 0.5), 0.8, 0.75);
    expect(hit?.atUtcMs).toBeCloseTo(START_MS + 0.75 * HOUR_MS, 3);
    expect(hit?.dryingHours).toBeCloseTo(0.25, 9);
  });
  test("drying hours leave out the hours in which tissue gains", () => {
    expect(reaches(path([0.5, 0.55, 0.45]), 0.6, 0.45)?.dryingHours).toBe(2);
  });
  test("at or above the start is reached at once", () => {
    expect(answer(steady(72), 0.8)).toMatchObject({ reached: true, elapsedHours: 0, alreadyBelow: true });
  });
});

describe("what holds a target up", () => {
  test("rain: the same course without it gets there", () => {
    const weather = repeatedDays(4, SUNNY_DRY);
    for (let h = 26; h < 96; h += 3) weather.rainMm[h] = 4;
    expect(answer(weather, 0.2)).toMatchObject({ reached: false, limitedBy: "rain" });
  });
  test("air too humid: the lowest daytime equilibrium stays above it", () => {
    const day = { ...CLOUDY_WET, minTempC: 20, maxTempC: 22, dewPointC: 19.5 };
    expect(answer(repeatedDays(6, day), 0.12)).toMatchObject({ reached: false, limitedBy: "air-too-humid" });
  });
  test("slow drying: at the fall of the last three days it lies over ten days ahead", () => {
    const dull = {
      ...SUNNY_DRY,
      minTempC: 2,
      maxTempC: 6,
      dewPointC: -4,
      noonSunWm2: 20,
      windMps: 0.5,
      cloudFrac: 1,
    };
    const corn = { crop: "corn", dryMatterTHa: 14, conditioning: "none", coveredFraction: 0.4 };
    expect(answer(repeatedDays(6, dull), 0.15, 9, corn)).toMatchObject({
      reached: false,
      limitedBy: "slow-drying",
    });
  });
  test("forecast too short: it was on its way", () => {
    expect(answer(repeatedDays(2, SUNNY_DRY), 0.14, 20)).toMatchObject({
      reached: false,
      limitedBy: "forecast-too-short",
    });
  });
  test("tells the lowest moisture it saw", () => {
    const never = answer(repeatedDays(2, SUNNY_DRY), 0.14, 20);
    expect(!never.reached && never.lowestWb).toBeGreaterThan(0.14);
  });
});
