import type { HourlyWeather } from "../weather/hourly.ts";
import type { DryingParameters } from "./coefficients.ts";
import { DRYING_PARAMETERS } from "./coefficients.ts";
import { referenceCourse } from "./course-reference.ts";
import type { Operation } from "./operations.ts";
import type { SwathRequest } from "./request.ts";

export type { Operation } from "./operations.ts";

/** The hour-by-hour moisture of one cut. Arrays run from the hour that contains the cut; see CourseHours. */
export interface Course {
  readonly startUtcMs: number;
  readonly cutUtcMs: number;
  readonly count: number;
  readonly moistureWb: Float64Array;
  readonly leafMoistureWb: Float64Array;
  readonly stemMoistureWb: Float64Array;
  readonly equilibriumWb: Float64Array;
  readonly dryMatterGM2: Float64Array;
  readonly coveredFraction: Float64Array;
  readonly freeWaterMm: Float64Array;
  readonly rainMm: Float64Array;
  readonly interceptedMm: Float64Array;
  readonly drainedMm: Float64Array;
  readonly dewMm: Float64Array;
  readonly vapourUptakeMm: Float64Array;
  readonly absorbedMm: Float64Array;
  readonly evaporationMm: Float64Array;
  readonly operationMm: Float64Array;
}

const HOUR_MS = 3_600_000;

/** A course of zeros from hour `first` of the weather to its end. */
export function emptyCourse(weather: HourlyWeather, first: number, cutUtcMs: number): Course {
  if (!(first >= 0 && first < weather.count)) {
    throw new RangeError(`runCourse: cutUtcMs must lie within the weather's ${weather.count} hours, got hour ${first}`);
  }
  const count = weather.count - first;
  const column = () => new Float64Array(count);
  return {
    startUtcMs: weather.startUtcMs + first * HOUR_MS,
    cutUtcMs,
    count,
    moistureWb: column(),
    leafMoistureWb: column(),
    stemMoistureWb: column(),
    equilibriumWb: column(),
    dryMatterGM2: column(),
    coveredFraction: column(),
    freeWaterMm: column(),
    rainMm: column(),
    interceptedMm: column(),
    drainedMm: column(),
    dewMm: column(),
    vapourUptakeMm: column(),
    absorbedMm: column(),
    evaporationMm: column(),
    operationMm: column(),
  };
}

/**
 * The course of one cut through the weather, to the weather's end.
 *
 * @throws RangeError when the cut lies outside the weather
 */
export function runCourse(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
  p: DryingParameters = DRYING_PARAMETERS,
): Course {
  return referenceCourse(weather, swath, cutUtcMs, operations, p);
}
