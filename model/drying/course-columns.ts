import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";

/** What windows are read from, hour by hour from the hour that contains the cut; see CourseHours. */
export interface MoistureCourse {
  readonly startUtcMs: number;
  readonly cutUtcMs: number;
  readonly count: number;
  readonly moistureWb: Float64Array;
  readonly freeWaterMm: Float64Array;
}

/** What a board reads of a cut. */
export interface SweepCourse extends MoistureCourse {
  readonly leafMoistureWb: Float64Array;
  readonly stemMoistureWb: Float64Array;
  readonly equilibriumWb: Float64Array;
}

/** The same with all that came and went: what a course shown by itself, and the water balance, read. */
export interface Course extends SweepCourse {
  readonly dryMatterGM2: Float64Array;
  readonly coveredFraction: Float64Array;
  readonly rainMm: Float64Array;
  readonly interceptedMm: Float64Array;
  readonly drainedMm: Float64Array;
  readonly dewMm: Float64Array;
  readonly vapourUptakeMm: Float64Array;
  readonly absorbedMm: Float64Array;
  readonly evaporationMm: Float64Array;
  readonly operationMm: Float64Array;
}

/** Columns of a course of moisture alone. */
export const MOISTURE_COLUMNS = 2;
const SWEEP_COLUMNS = 5;
const COURSE_COLUMNS = 15;

/** Makes columns of zeros, all in one block: a board makes hundreds of courses. */
function columnsOf(count: number, columns: number): () => Float64Array {
  const columnBytes = count * Float64Array.BYTES_PER_ELEMENT;
  const block = new ArrayBuffer(columns * columnBytes);
  let taken = 0;
  return () => new Float64Array(block, taken++ * columnBytes, count);
}

/** Hour of the weather that contains a moment. */
export function hourOf(weather: HourlyWeather, utcMs: number): number {
  return Math.floor((utcMs - weather.startUtcMs) / HOUR_MS);
}

/** Hours of a course from `first` to the weather's end. */
function hoursFrom(weather: HourlyWeather, first: number): number {
  if (first >= 0 && first < weather.count) return weather.count - first;
  throw new RangeError(
    `runCourse: cutUtcMs must lie within the weather's ${weather.count} hours, got hour ${first}`,
  );
}

function sweepOf(
  weather: HourlyWeather,
  first: number,
  cutUtcMs: number,
  columns: number,
  mostHours = Number.POSITIVE_INFINITY,
): { readonly sweep: SweepCourse; readonly column: () => Float64Array } {
  const count = Math.max(1, Math.min(mostHours, hoursFrom(weather, first)));
  const column = columnsOf(count, columns);
  const sweep = {
    startUtcMs: weather.startUtcMs + first * HOUR_MS,
    cutUtcMs,
    count,
    moistureWb: column(),
    leafMoistureWb: column(),
    stemMoistureWb: column(),
    equilibriumWb: column(),
    freeWaterMm: column(),
  };
  return { sweep, column };
}

/** A board's course of zeros from hour `first` of the weather to its end, or for so many hours. */
export function emptySweep(
  weather: HourlyWeather,
  first: number,
  cutUtcMs: number,
  mostHours?: number,
): SweepCourse {
  return sweepOf(weather, first, cutUtcMs, SWEEP_COLUMNS, mostHours).sweep;
}

/** The same of moisture alone over a block of at least MOISTURE_COLUMNS weathers' hours, which keeps what stood in it. */
export function moistureOver(
  block: Float64Array,
  weather: HourlyWeather,
  first: number,
  cutUtcMs: number,
): MoistureCourse {
  const count = hoursFrom(weather, first);
  return {
    startUtcMs: weather.startUtcMs + first * HOUR_MS,
    cutUtcMs,
    count,
    moistureWb: block.subarray(0, count),
    freeWaterMm: block.subarray(count, 2 * count),
  };
}

/** A course of zeros from hour `first` of the weather to the weather's end. */
export function emptyCourse(weather: HourlyWeather, first: number, cutUtcMs: number): Course {
  const { sweep, column } = sweepOf(weather, first, cutUtcMs, COURSE_COLUMNS);
  return {
    ...sweep,
    dryMatterGM2: column(),
    coveredFraction: column(),
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
