import { DRYING_PARAMETERS, type DryingParameters } from "../../drying/coefficients.ts";
import { type MoistureCourse, runSweepCourse, type SweepCourse } from "../../drying/course.ts";
import { MOISTURE_COLUMNS } from "../../drying/course-columns.ts";
import { type CourseRun, resumeMoisture, startMoisture } from "../../drying/course-run.ts";
import type { Operation } from "../../drying/operations.ts";
import type { SwathRequest } from "../../drying/request.ts";
import type { RunState } from "../../drying/run-state.ts";
import { type Ground, groundOf, trackOf } from "../../harvest/drying-store.ts";
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
  /** @param untilUtcMs no hour is asked that begins later; absent = the weather's end */
  course(cutUtcMs: number, operations: readonly Operation[], untilUtcMs?: number): SweepCourse;
  /**
   * The same course of moisture alone, to be run on as far as it is needed.
   *
   * @param block see moistureBlock
   * @param from how the same cut stood before its passes parted from these; null = the cut itself
   */
  run(
    block: Float64Array,
    cutUtcMs: number,
    operations: readonly Operation[],
    from: RunState | null,
  ): CourseRun;
  track(course: MoistureCourse): Track;
}

/** Where the moisture of any one run of these members stands, until another is run over it. */
export function moistureBlock(members: readonly MemberSwath[]): Float64Array {
  return new Float64Array(MOISTURE_COLUMNS * Math.max(0, ...members.map(({ weather }) => weather.count)));
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
    const parametersOf = () => {
      if (draw === undefined) return DRYING_PARAMETERS;
      const known = parameters.get(draw.rateFactor) ?? parametersOfDraw(draw);
      parameters.set(draw.rateFactor, known);
      return known;
    };
    return {
      weather,
      swath: own,
      course: (cutUtcMs, operations, untilUtcMs) =>
        runSweepCourse(weather, own, cutUtcMs, operations, parametersOf(), untilUtcMs),
      run: (block, cutUtcMs, operations, from) =>
        from === null
          ? startMoisture(block, weather, own, cutUtcMs, operations, parametersOf())
          : resumeMoisture(block, weather, own, cutUtcMs, operations, parametersOf(), from),
      track: (course) => {
        ground ??= groundOf(weather, maxRainMm24h);
        const first = Math.round((course.startUtcMs - weather.startUtcMs) / HOUR_MS);
        return trackOf(course, own, weather.rainMm.subarray(first), ground.soilFit.subarray(first));
      },
    };
  });
}
