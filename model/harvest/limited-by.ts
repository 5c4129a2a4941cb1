import { LOOK_BACK_H, TOO_SLOW_DAYS } from "../drying/targets.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { WindowLimit } from "./answer.ts";
import type { Conditions, Track } from "./spans.ts";
import { ALL_CONDITIONS, fitSpans, holds } from "./spans.ts";
import type { Span } from "./work-hours.ts";

/** What is asked of a track: the band, the working days, and how many hours the machine needs in one span. */
export interface Need {
  readonly bandWb: readonly [number, number];
  readonly hours: number;
  readonly days: readonly Span[];
}

/** The windows that hold the whole work, in time order. */
export function windowsOf(track: Track, need: Need, conditions: Conditions = ALL_CONDITIONS): Span[] {
  return fitSpans(track, need.bandWb, conditions, need.days).filter((span) => holds(span, need.hours));
}

export function hasWindow(track: Track, need: Need, conditions: Conditions): boolean {
  return fitSpans(track, need.bandWb, conditions, need.days).some((span) => holds(span, need.hours));
}

/** Lowest moisture of the track, wet basis. */
export function lowestOf(track: Track): number {
  return Math.min(track.startWb, least(track.endWb));
}

function least(values: Float64Array): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (const value of values) if (value < lowest) lowest = value;
  return lowest;
}

/** Lowest equilibrium moisture of the hours of which any part is worked, wet basis; infinite where none is. */
export function lowestWorkingEquilibriumWb(
  track: Track,
  equilibriumWb: Float64Array,
  days: readonly Span[],
): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (const day of days) {
    const first = Math.max(
      0,
      Math.floor((Math.max(day.startMs, track.fromUtcMs) - track.startUtcMs) / HOUR_MS),
    );
    const end = Math.min(track.count, Math.ceil((day.endMs - track.startUtcMs) / HOUR_MS));
    for (let i = first; i < end; i++) lowest = Math.min(lowest, equilibriumWb[i] as number);
  }
  return lowest;
}

/** The fall of the last three days (or of the whole course, if shorter) would need over ten more days. */
function isSlow(track: Track, topWb: number): boolean {
  const { count, endWb, startWb } = track;
  const lastWb = count === 0 ? startWb : (endWb[count - 1] as number);
  if (lastWb <= topWb) return false;
  const earlierWb = count > LOOK_BACK_H ? (endWb[count - 1 - LOOK_BACK_H] as number) : startWb;
  const days = Math.min(count, LOOK_BACK_H) / 24;
  const fallPerDay = (earlierWb - lastWb) / days;
  return !(fallPerDay > 0) || (lastWb - topWb) / fallPerDay > TOO_SLOW_DAYS;
}

/** What the reasons are read from beside the track itself. */
export interface Evidence {
  /** The same cut or crop without the rain that falls after it; null where none falls. */
  readonly withoutRain: (() => Track) | null;
  /** Drying-branch equilibrium of each hour; null for a standing crop. */
  readonly equilibriumWb: Float64Array | null;
}

const WITHOUT_FILM: Conditions = { ...ALL_CONDITIONS, film: false };
const WITHOUT_SOIL: Conditions = { ...ALL_CONDITIONS, soil: false };
export const ANY_HOUR: Conditions = { ...ALL_CONDITIONS, work: false };
export const BAND_ONLY: Conditions = { film: false, rain: false, soil: false, work: false };
export const BAND_AND_WORK: Conditions = { film: false, rain: false, soil: false, work: true };

/**
 * Why a track has no window, the first that is true:
 * - `rain`: the same course without the rain after the cut has one;
 * - `air-too-humid`: never below the band's top, and the lowest equilibrium of the working hours stays above it;
 * - `over-dry`: it fell below the band without ever staying in it long enough, at any hour of day or night, though the
 *   work would fit a working day;
 * - `dew`, `soil-too-wet`, `working-hours`: leaving out that one condition gives a window;
 * - `rain` or `dew` again where in the working hours the band was held long enough but free water, rain and soil
 *   together broke it up: `rain` if any fell after the cut;
 * - `too-few-hours`: there are shorter windows;
 * - for a swath that fell below the band after holding it long enough, yet never in a fit working hour: `working-hours`
 *   if the band was held outside them alone, else `dew`, or `rain` if any fell after the cut;
 * - `slow-drying`, else `forecast-too-short`.
 */
export function limitedBy(track: Track, need: Need, evidence: Evidence): WindowLimit {
  const [footWb, topWb] = need.bandWb;
  if (evidence.withoutRain !== null && hasWindow(evidence.withoutRain(), need, ALL_CONDITIONS)) return "rain";
  const lowestWb = lowestOf(track);
  if (lowestWb > topWb && evidence.equilibriumWb !== null) {
    const lowest = lowestWorkingEquilibriumWb(track, evidence.equilibriumWb, need.days);
    if (Number.isFinite(lowest) && lowest > topWb) return "air-too-humid";
  }
  // Most swaths without a window never came down to the band: nothing else is worth asking then.
  if (lowestWb > topWb) return isSlow(track, topWb) ? "slow-drying" : "forecast-too-short";
  // Most of the rest left the band too soon at any hour and in any weather: one question answers four then.
  const heldAtAll = hasWindow(track, need, BAND_ONLY);
  const heldInWork = heldAtAll && hasWindow(track, need, BAND_AND_WORK);
  // Round the clock is the longest working day there is: more work than that is never a matter of working hours.
  const anyHour = heldAtAll && need.hours <= 24 && hasWindow(track, need, ANY_HOUR);
  // Work longer than any working day is too few hours, however long the band might last.
  const fitsADay = need.days.some((day) => holds(day, need.hours));
  if (lowestWb < footWb && fitsADay && !heldAtAll) return "over-dry";
  if (heldInWork && hasWindow(track, need, WITHOUT_FILM)) return "dew";
  if (heldInWork && hasWindow(track, need, WITHOUT_SOIL)) return "soil-too-wet";
  if (anyHour) return "working-hours";
  if (heldInWork) return evidence.withoutRain === null ? "dew" : "rain";
  if (fitSpans(track, need.bandWb, ALL_CONDITIONS, need.days).length > 0) return "too-few-hours";
  if (lowestWb < footWb && heldAtAll) {
    if (fitSpans(track, need.bandWb, BAND_AND_WORK, need.days).length === 0) return "working-hours";
    return evidence.withoutRain === null ? "dew" : "rain";
  }
  return isSlow(track, topWb) ? "slow-drying" : "forecast-too-short";
}

/** First moment at which the track is at or below this moisture, UTC ms; null where it never is. */
export function firstAtOrBelow(track: Track, topWb: number): number | null {
  if (track.startWb <= topWb) return track.fromUtcMs;
  let beforeWb = track.startWb;
  for (let i = 0; i < track.count; i++) {
    const wb = track.endWb[i] as number;
    if (wb <= topWb) {
      const atMs = track.startUtcMs + (i + (beforeWb - topWb) / (beforeWb - wb)) * HOUR_MS;
      return Math.max(track.fromUtcMs, atMs);
    }
    beforeWb = wb;
  }
  return null;
}
