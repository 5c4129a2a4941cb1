import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { DryingParameters } from "./coefficients.ts";
import { DRYING_PARAMETERS } from "./coefficients.ts";
import type { Course, SweepCourse } from "./course-columns.ts";
import { emptyCourse, emptySweep, hourOf } from "./course-columns.ts";
import { runOn, startOf } from "./course-run.ts";
import type { Operation } from "./operations.ts";
import type { SwathRequest } from "./request.ts";

export { type Course, emptyCourse, type MoistureCourse, type SweepCourse } from "./course-columns.ts";
export type { Operation } from "./operations.ts";

/**
 * The course of one cut through the weather, to the weather's end, by the fast step.
 *
 * @param subSteps parts into which every hour is cut; more than 1 only to study convergence
 * @throws RangeError when the cut lies outside the weather
 */
export function runCourse(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
  p: DryingParameters = DRYING_PARAMETERS,
  subSteps = 1,
): Course {
  const course = emptyCourse(weather, hourOf(weather, cutUtcMs), cutUtcMs);
  runOn(
    startOf(weather, swath, operations, p, { course, sweep: course, full: course }),
    course.count,
    subSteps,
  );
  return course;
}

/**
 * The same course with only what a board reads: hundreds are made at once, and what is not kept need not be collected.
 *
 * @param untilUtcMs the course ends with the hour in which this lies; absent = with the weather
 */
export function runSweepCourse(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
  p: DryingParameters = DRYING_PARAMETERS,
  untilUtcMs = Number.POSITIVE_INFINITY,
): SweepCourse {
  const first = hourOf(weather, cutUtcMs);
  const hours = Math.ceil((untilUtcMs - weather.startUtcMs) / HOUR_MS) - first;
  const course = emptySweep(weather, first, cutUtcMs, hours);
  runOn(startOf(weather, swath, operations, p, { course, sweep: course, full: null }), course.count);
  return course;
}
