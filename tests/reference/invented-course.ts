import { type Course, emptyCourse, type Operation } from "../../model/drying/course.ts";
import type { SwathRequest } from "../../model/drying/request.ts";
import type { HourlyWeather } from "../../model/weather/hourly.ts";

const HOUR = 3_600_000;

/** A number in [0, 1) that depends on nothing but its arguments. */
export function dice(seed: number, i: number): number {
  let x = (Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(i + 1, 0xc2b2ae35)) >>> 0;
  x = Math.imul(x ^ (x >>> 16), 0x45d9f3b) >>> 0;
  x = Math.imul(x ^ (x >>> 16), 0x45d9f3b) >>> 0;
  return ((x ^ (x >>> 16)) >>> 0) / 2 ** 32;
}

/**
 * A course of no physics, for tests of what is read from courses: the moisture falls by day, wavers, climbs back by
 * night and in rain; films of water come and go. It depends on the cut, the swath and the passes, so that a course
 * run for the wrong one of them is noticed.
 */
export function inventedCourse(seed: number) {
  return (
    weather: HourlyWeather,
    swath: SwathRequest,
    cutUtcMs: number,
    operations: readonly Operation[],
  ): Course => {
    const first = Math.floor((cutUtcMs - weather.startUtcMs) / HOUR);
    const course = emptyCourse(weather, first, cutUtcMs);
    let wb = swath.initialMoistureWb;
    let filmMm = 0;
    for (let i = 0; i < course.count; i++) {
      const endMs = course.startUtcMs + (i + 1) * HOUR;
      const done = operations.filter((pass) => pass.atUtcMs < endMs).length;
      const sunny = (weather.solarWm2[first + i] as number) > 50;
      const rainMm = weather.rainMm[first + i] as number;
      const speed = 0.06 * (0.5 + swath.coveredFraction) * (1 + 0.3 * done) * (0.3 + dice(seed, first + i));
      const restWb = sunny ? 0.08 + 0.1 * dice(seed + 1, Math.floor((first + i) / 24)) : 0.2;
      wb += (restWb - wb) * (sunny || wb < restWb ? 2 * speed : 0.2 * speed) + 0.01 * rainMm;
      wb = Math.min(0.9, Math.max(0.03, wb));
      const wetNight = dice(seed + 2, Math.floor((first + i) / 24)) < 0.5;
      filmMm = Math.max(0, filmMm * 0.5 + 0.3 * rainMm + (sunny || !wetNight ? -0.02 : 0.04));
      course.moistureWb[i] = wb;
      course.equilibriumWb[i] = restWb;
      course.freeWaterMm[i] = filmMm;
      course.rainMm[i] = rainMm;
    }
    return course;
  };
}
