import type { DryingParameters } from "../../drying/coefficients.ts";
import { runCourse, runSweepCourse, type SweepCourse } from "../../drying/course.ts";
import type { Operation } from "../../drying/operations.ts";
import type { SwathRequest } from "../../drying/request.ts";
import { type Ground, groundOf } from "../../harvest/drying-store.ts";
import type { Track } from "../../harvest/spans.ts";
import { parametersOfDraw } from "../../odds/odds.ts";
import { drawSample, swathOfDraw } from "../../odds/sample.ts";
import { uncertaintyOf } from "../../odds/uncertainty.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { HourlyWeather } from "../../weather/hourly.ts";
import type { SiteWeather } from "./site-weather.ts";

/** One member's weather with one draw of what the model may be wrong about: dries any cut of one field. */
export interface MemberSwath {
  readonly weather: HourlyWeather;
  readonly swath: SwathRequest;
  course(cutUtcMs: number, operations: readonly Operation[]): SweepCourse;
  track(course: SweepCourse): Track;
}

/** Drying parameters by rate factor: a member's air is tabulated once for each, so the same object must come back. */
export type ParameterStore = Map<number, DryingParameters>;

/** The members of a site around one field's swath; weather that is known stands as it is. */
export function memberSwaths(
  site: SiteWeather,
  swath: SwathRequest,
  maxRainMm24h: number,
  seed: number,
  parameters: ParameterStore,
): readonly MemberSwath[] {
  const { members, kind } = site;
  const draws = kind === "known" ? [] : drawSample(swath, uncertaintyOf(swath.crop), members.length, seed);
  return members.map((weather, i) => {
    const draw = draws[i];
    const own = draw === undefined ? swath : swathOfDraw(swath, draw);
    let ground: Ground | null = null;
    return {
      weather,
      swath: own,
      course: (cutUtcMs, operations) => {
        if (draw === undefined) return runSweepCourse(weather, own, cutUtcMs, operations);
        const known = parameters.get(draw.rateFactor) ?? parametersOfDraw(draw);
        parameters.set(draw.rateFactor, known);
        return runCourse(weather, own, cutUtcMs, operations, known);
      },
      track: (course) => {
        ground ??= groundOf(weather, maxRainMm24h);
        const first = Math.round((course.startUtcMs - weather.startUtcMs) / HOUR_MS);
        return {
          startUtcMs: course.startUtcMs,
          fromUtcMs: course.cutUtcMs,
          count: course.count,
          startWb: own.initialMoistureWb,
          endWb: course.moistureWb,
          startFilmMm: own.freeWaterMm ?? course.freeWaterMm[0] ?? 0,
          endFilmMm: course.freeWaterMm,
          rainMm: weather.rainMm.subarray(first),
          soilFit: ground.soilFit.subarray(first),
        };
      },
    };
  });
}
