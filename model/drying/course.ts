import type { HourlyWeather } from "../weather/hourly.ts";
import type { OperationKind } from "./keys.ts";
import type { SwathRequest } from "./request.ts";

/** One pass of a tedder, rake or inverter at a moment; `coveredFraction` null = the operation's default. */
export interface Operation {
  readonly kind: OperationKind;
  readonly atUtcMs: number;
  readonly coveredFraction: number | null;
}

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

/**
 * The course of one cut through the weather, to the weather's end.
 *
 * @throws RangeError when the cut lies outside the weather
 */
export function runCourse(
  _weather: HourlyWeather,
  _swath: SwathRequest,
  _cutUtcMs: number,
  _operations: readonly Operation[],
): Course {
  throw new Error("runCourse: placeholder until the step is in place");
}
