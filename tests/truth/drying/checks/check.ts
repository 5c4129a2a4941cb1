import type { DryingParameters } from "../../../../model/drying/coefficients.ts";
import type { Course } from "../../../../model/drying/course.ts";
import { referenceCourse } from "../../../../model/drying/course-reference.ts";
import { dryBasis } from "../../../../model/drying/moisture.ts";
import type { Operation } from "../../../../model/drying/operations.ts";
import type { SwathRequest } from "../../../../model/drying/request.ts";
import type { HourlyWeather } from "../../../../model/weather/hourly.ts";
import { STANDARD_SWATH, START_MS } from "../conditions.ts";

/** What a check is, and what the checks of all topics are made with. */

/** How a row was used: to fit coefficients, or read after they were frozen. "from memory" = its source is. */
export type Use = "fitted on" | "held out" | "from memory";

export interface Check {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly use: Use;
  /** Infinity where the model never gets there. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** True where the row is shown but not required to hold. */
  readonly reportOnly?: boolean;
}

export const HOUR_MS = 3_600_000;

export interface Lab {
  run(
    weather: HourlyWeather,
    swath: Partial<SwathRequest>,
    cutHour?: number,
    ops?: readonly Operation[],
  ): Course;
}

export function lab(p: DryingParameters): Lab {
  return {
    run: (weather, swath, cutHour = 0, ops = []) =>
      referenceCourse(weather, { ...STANDARD_SWATH, ...swath }, START_MS + cutHour * HOUR_MS, ops, p),
  };
}

/** Hours from the cut until the tissue first reaches a moisture, interpolated in the hour; Infinity if never. */
export function hoursTo(course: Course, initialWb: number, targetWb: number): number {
  let before = initialWb;
  for (let i = 0; i < course.count; i++) {
    const now = course.moistureWb[i] as number;
    if (now <= targetWb) return i + (before - targetWb) / (before - now);
    before = now;
  }
  return Number.POSITIVE_INFINITY;
}

/** Rate constant between two moistures, 1/h: the mean slope of ln(dry-basis moisture). */
export function rateBetween(course: Course, initialWb: number, fromWb: number, toWb: number): number {
  const hours = hoursTo(course, initialWb, toWb) - hoursTo(course, initialWb, fromWb);
  return Math.log(dryBasis(fromWb) / dryBasis(toWb)) / hours;
}

/** Rows gathered in order. */
export function collector() {
  const checks: Check[] = [];
  const add = (
    id: string,
    what: string,
    source: string,
    use: Use,
    value: number,
    low: number,
    high: number,
    reportOnly = false,
  ) => checks.push({ id, what, source, use, value, low, high, ...(reportOnly ? { reportOnly } : {}) });
  return { checks, add };
}
