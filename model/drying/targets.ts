import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { utcLabel } from "../weather/labels.ts";
import type { DryingLimit, TargetAnswer } from "./answer.ts";
import type { Course } from "./course.ts";

/** "slow-drying": at the fall of the last three days the target lies more than this many days ahead. */
export const TOO_SLOW_DAYS = 10;
export const LOOK_BACK_H = 72;

/** A moisture path from the cut: the course itself, or a second opinion laid on the same hours. */
export interface MoisturePath {
  readonly startUtcMs: number;
  readonly cutUtcMs: number;
  readonly moistureWb: Float64Array;
}

/** When a path first reaches a moisture, from the cut, interpolated inside the hour. */
export function reaches(
  path: MoisturePath,
  initialWb: number,
  targetWb: number,
): { readonly atUtcMs: number; readonly dryingHours: number } | null {
  let before = initialWb;
  let dryingHours = 0;
  for (let i = 0; i < path.moistureWb.length; i++) {
    const now = path.moistureWb[i] as number;
    const fromMs = i === 0 ? path.cutUtcMs : path.startUtcMs + i * HOUR_MS;
    const spanH = (path.startUtcMs + (i + 1) * HOUR_MS - fromMs) / HOUR_MS;
    if (now <= targetWb) {
      const share = before > now ? Math.min(1, Math.max(0, (before - targetWb) / (before - now))) : 0;
      return { atUtcMs: fromMs + share * spanH * HOUR_MS, dryingHours: dryingHours + share * spanH };
    }
    if (now < before) dryingHours += spanH;
    before = now;
  }
  return null;
}

/** What a target that the path never reaches is held up by. `dry` = the same path without rain. */
export interface TargetContext {
  readonly weather: HourlyWeather;
  readonly course: Course;
  /** The same course without rain; called only when it is needed. */
  readonly withoutRain: () => MoisturePath;
}

/** The answer for one target. `initialWb` is the moisture at cutting. */
export function targetAnswer(
  path: MoisturePath,
  initialWb: number,
  targetWb: number,
  context: TargetContext,
): TargetAnswer {
  if (targetWb >= initialWb) {
    return {
      targetWb,
      reached: true,
      reachedUtc: utcLabel(path.cutUtcMs),
      elapsedHours: 0,
      dryingHours: 0,
      alreadyBelow: true,
    };
  }
  const hit = reaches(path, initialWb, targetWb);
  if (hit) {
    return {
      targetWb,
      reached: true,
      reachedUtc: utcLabel(Math.round(hit.atUtcMs / 1000) * 1000),
      elapsedHours: (hit.atUtcMs - path.cutUtcMs) / HOUR_MS,
      dryingHours: hit.dryingHours,
    };
  }
  const lowestWb = path.moistureWb.reduce((low, wb) => Math.min(low, wb), initialWb);
  return { targetWb, reached: false, limitedBy: limitedBy(path, initialWb, targetWb, context), lowestWb };
}

function limitedBy(
  path: MoisturePath,
  initialWb: number,
  targetWb: number,
  context: TargetContext,
): DryingLimit {
  if (reaches(context.withoutRain(), initialWb, targetWb)) return "rain";
  if (lowestDaytimeEquilibrium(context.weather, context.course) > targetWb) return "air-too-humid";
  const end = path.moistureWb.length - 1;
  const from = end - LOOK_BACK_H;
  const lastWb = path.moistureWb[end] as number;
  const fromWb = from >= 0 ? (path.moistureWb[from] as number) : initialWb;
  const days = (from >= 0 ? LOOK_BACK_H : end + 1) / 24;
  const fallPerDay = (fromWb - lastWb) / days;
  if (!(fallPerDay > 0) || (lastWb - targetWb) / fallPerDay > TOO_SLOW_DAYS) return "slow-drying";
  return "forecast-too-short";
}

/** Lowest drying equilibrium of the daylight hours after the cut, wet basis; 1 when there is no daylight. */
function lowestDaytimeEquilibrium(weather: HourlyWeather, course: Course): number {
  const first = Math.round((course.startUtcMs - weather.startUtcMs) / HOUR_MS);
  let low = 1;
  for (let i = 0; i < course.count; i++) {
    if (weather.daylight[first + i] === 1) low = Math.min(low, course.equilibriumWb[i] as number);
  }
  return low;
}
