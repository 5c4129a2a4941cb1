import type { DryingParameters } from "../drying/coefficients.ts";
import type { MoistureCourse, SweepCourse } from "../drying/course.ts";
import { withoutRain } from "../drying/drydown.ts";
import type { Operation } from "../drying/operations.ts";
import type { SwathRequest } from "../drying/request.ts";
import { once } from "../once.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { Settled, SettledTreatment } from "./settle.ts";
import type { Track } from "./spans.ts";

/** The course of one cut: the drying model's own, or a stand-in of a test. */
export type CourseOf = (
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
  p?: DryingParameters,
) => SweepCourse;

/** What other published formulas make of the same cut, hour for hour with the course. */
export type OpinionsOf = (
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
) => readonly { readonly name: string; readonly moistureWb: Float64Array }[];

export interface DryingTools {
  readonly course: CourseOf;
  readonly opinions: OpinionsOf;
}

/** Rain and soil of the weather's hours, worked out once for all cuts. */
export interface Ground {
  /** rainBefore[i] = rain of all hours before hour i, mm; one longer than the weather. */
  readonly rainBefore: Float64Array;
  readonly soilFit: Uint8Array;
  readonly maxRainMm24h: number;
  /** The same weather without its rain: one object for all cuts, since a course tabulates the air of each weather once. */
  readonly rainless: HourlyWeather;
}

/** Rain sums of the same tenths must compare equal whatever the order they were added in, mm. */
const RAIN_SLACK_MM = 1e-9;

/**
 * Soil carries machines through an hour when no more than the limit fell in the 24 hours before its start. Rain of the
 * hour itself already closes it. Hours before the weather begins count as dry.
 */
export function groundOf(weather: HourlyWeather, maxRainMm24h: number): Ground {
  const rainBefore = new Float64Array(weather.count + 1);
  const soilFit = new Uint8Array(weather.count);
  for (let i = 0; i < weather.count; i++) {
    const before = rainBefore[i] as number;
    rainBefore[i + 1] = before + (weather.rainMm[i] as number);
    soilFit[i] = before - (rainBefore[Math.max(0, i - 24)] as number) <= maxRainMm24h + RAIN_SLACK_MM ? 1 : 0;
  }
  return { rainBefore, soilFit, maxRainMm24h, rainless: withoutRain(weather) };
}

/** The soil of the hours from `first` on if no rain fell from `first` on: only earlier rain still counts. */
export function soilWithoutRainFrom(ground: Ground, first: number): Uint8Array {
  const count = ground.soilFit.length - first;
  const soilFit = new Uint8Array(count).fill(1);
  const fallen = ground.rainBefore[first] as number;
  for (let k = 0; k < Math.min(24, count); k++) {
    const rainMm = fallen - (ground.rainBefore[Math.max(0, first + k - 24)] as number);
    if (k < 24 && rainMm > ground.maxRainMm24h + RAIN_SLACK_MM) soilFit[k] = 0;
  }
  return soilFit;
}

/** Rain of the whole hours in [fromMs, toMs), mm; an hour that is only touched counts whole. */
export function rainBetweenMm(weather: HourlyWeather, ground: Ground, fromMs: number, toMs: number): number {
  const hour = (ms: number) => (ms - weather.startUtcMs) / HOUR_MS;
  const first = Math.min(weather.count, Math.max(0, Math.floor(hour(fromMs) + 1e-9)));
  const end = Math.min(weather.count, Math.max(first, Math.ceil(hour(toMs) - 1e-9)));
  // A sum of its own, not a difference of sums: no rain must be exactly 0.
  let sum = 0;
  for (let i = first; i < end; i++) sum += weather.rainMm[i] as number;
  return ground.rainBefore[end] === ground.rainBefore[first] ? 0 : sum;
}

/** One cut with one treatment and its passes: the course, and what the windows are read from. */
export interface Drying {
  readonly course: SweepCourse;
  readonly track: Track;
  /** The same without the rain after the cut; null where none falls. Run once, when first asked for. */
  readonly withoutRain: (() => Track) | null;
  /** Moisture of the other formulas as tracks. Run once, when first asked for. */
  readonly opinions: () => readonly Track[];
}

export interface DryingStore {
  of(cutUtcMs: number, treatment: SettledTreatment, operations: readonly Operation[]): Drying;
}

/** What the windows of a swath are read from. */
export function trackOf(
  course: MoistureCourse,
  swath: SwathRequest,
  rainMm: Float64Array,
  soilFit: Uint8Array,
): Track {
  return {
    startUtcMs: course.startUtcMs,
    fromUtcMs: course.cutUtcMs,
    count: course.count,
    startWb: swath.initialMoistureWb,
    endWb: course.moistureWb,
    // What is on the crop at the cut is not part of the course: the end of the first hour stands for its start.
    startFilmMm: swath.freeWaterMm ?? course.freeWaterMm[0] ?? 0,
    endFilmMm: course.freeWaterMm,
    rainMm,
    soilFit,
  };
}

/** Runs each course at most once: by its cut, treatment and passes. */
export function dryingStore(settled: Settled, ground: Ground, tools: DryingTools): DryingStore {
  const { weather } = settled;
  const { rainless } = ground;
  const known = new Map<string, Drying>();

  const make = (cutUtcMs: number, swath: SwathRequest, operations: readonly Operation[]): Drying => {
    const course = tools.course(weather, swath, cutUtcMs, operations);
    const first = Math.round((course.startUtcMs - weather.startUtcMs) / HOUR_MS);
    const rains = (ground.rainBefore[weather.count] as number) > (ground.rainBefore[first] as number);
    const track = trackOf(course, swath, weather.rainMm.subarray(first), ground.soilFit.subarray(first));
    return {
      course,
      track,
      withoutRain: rains
        ? once(() => {
            const course = tools.course(rainless, swath, cutUtcMs, operations);
            return trackOf(
              course,
              swath,
              rainless.rainMm.subarray(first),
              soilWithoutRainFrom(ground, first),
            );
          })
        : null,
      opinions: once(() =>
        tools
          .opinions(weather, swath, cutUtcMs, operations)
          .map(({ moistureWb }) => ({ ...track, endWb: moistureWb })),
      ),
    };
  };

  return {
    of(cutUtcMs, treatment, operations) {
      const passes = operations
        .map((pass) => `${pass.kind}@${pass.atUtcMs}=${pass.coveredFraction}`)
        .join(";");
      const key = `${cutUtcMs}|${treatment.id}|${passes}`;
      const found = known.get(key) ?? make(cutUtcMs, treatment.swath, operations);
      known.set(key, found);
      return found;
    },
  };
}
