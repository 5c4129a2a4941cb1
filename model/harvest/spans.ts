import { HOUR_MS, MINUTE_MS } from "../weather/clock.ts";
import type { Span } from "./work-hours.ts";

/**
 * What the windows are read from: the hours of one cut (or of the standing crop) as straight lines between hour ends.
 * Moisture and free water are known at the END of each hour and run straight in between, so a window may begin or end
 * inside an hour. Rain and soil hold for a whole hour.
 */
export interface Track {
  /** Start of hour 0, and the moment before which nothing counts (the cut, or now). */
  readonly startUtcMs: number;
  readonly fromUtcMs: number;
  readonly count: number;
  readonly startWb: number;
  readonly endWb: Float64Array;
  /** Free water at the start and at each hour's end, mm per covered m²; null where there is no swath. */
  readonly startFilmMm: number;
  readonly endFilmMm: Float64Array | null;
  /** Rain of each hour, mm, and 1 where the soil carries machines for the whole of the hour. */
  readonly rainMm: Float64Array;
  readonly soilFit: Uint8Array;
}

/** Which conditions count. Moisture always does. */
export interface Conditions {
  readonly film: boolean;
  readonly rain: boolean;
  readonly soil: boolean;
  readonly work: boolean;
}

export const ALL_CONDITIONS: Conditions = { film: true, rain: true, soil: true, work: true };

/** Free water under this counts as none, mm per covered m². */
export const NO_FILM_MM = 0.02;

/** Rounding of an edge that lies on a whole minute up to floating point, in minutes. */
const MINUTE_SLACK = 1e-6;

/** Share of the hour, 0-1, at which a straight line from a to b first lies within [lo, hi]; it is known to get there. */
function entersAt(a: number, b: number, lo: number, hi: number): number {
  return a < lo ? (lo - a) / (b - a) : a > hi ? (a - hi) / (a - b) : 0;
}

/** Share of the hour, 0-1, at which it last does. */
function leavesAt(a: number, b: number, lo: number, hi: number): number {
  return b < lo ? (a - lo) / (a - b) : b > hi ? (hi - a) / (b - a) : 1;
}

/** The longest stretches in which moisture and the chosen conditions (working hours apart) hold, UTC ms. */
export function fitStretches(
  track: Track,
  bandWb: readonly [number, number],
  conditions: Conditions,
): Span[] {
  const [lo, hi] = bandWb;
  const { count, endWb, endFilmMm, rainMm, soilFit } = track;
  const stretches: Span[] = [];
  let openStart = 0;
  let openEnd = Number.NaN;
  for (let i = 0; i < count; i++) {
    const fromWb = i === 0 ? track.startWb : (endWb[i - 1] as number);
    const toWb = endWb[i] as number;
    if ((fromWb < lo && toWb < lo) || (fromWb > hi && toWb > hi)) continue;
    if (conditions.rain && (rainMm[i] as number) > 0) continue;
    if (conditions.soil && soilFit[i] === 0) continue;
    let enter = entersAt(fromWb, toWb, lo, hi);
    let leave = leavesAt(fromWb, toWb, lo, hi);
    if (conditions.film && endFilmMm !== null) {
      const fromFilm = i === 0 ? track.startFilmMm : (endFilmMm[i - 1] as number);
      const toFilm = endFilmMm[i] as number;
      if (fromFilm >= NO_FILM_MM && toFilm >= NO_FILM_MM) continue;
      if (fromFilm > NO_FILM_MM) enter = Math.max(enter, (fromFilm - NO_FILM_MM) / (fromFilm - toFilm));
      if (toFilm > NO_FILM_MM) leave = Math.min(leave, (NO_FILM_MM - fromFilm) / (toFilm - fromFilm));
    }
    if (leave < enter) continue;
    const hourMs = track.startUtcMs + i * HOUR_MS;
    const startMs = Math.max(track.fromUtcMs, hourMs + enter * HOUR_MS);
    const endMs = hourMs + leave * HOUR_MS;
    if (endMs < startMs) continue;
    if (startMs === openEnd) {
      openEnd = endMs;
      continue;
    }
    if (openEnd > openStart) stretches.push({ startMs: openStart, endMs: openEnd });
    openStart = startMs;
    openEnd = endMs;
  }
  if (openEnd > openStart) stretches.push({ startMs: openStart, endMs: openEnd });
  return stretches;
}

/** The hours of a track from one on until another; the hour before the first must be known. */
export function hoursOfTrack(track: Track, from: number, until: number): Track {
  const { startUtcMs, fromUtcMs, endWb, endFilmMm } = track;
  const isWhole = from === 0;
  return {
    startUtcMs: startUtcMs + from * HOUR_MS,
    fromUtcMs,
    count: Math.max(0, until - from),
    startWb: isWhole ? track.startWb : (endWb[from - 1] as number),
    endWb: endWb.subarray(from),
    startFilmMm: isWhole ? track.startFilmMm : (endFilmMm?.[from - 1] ?? 0),
    endFilmMm: endFilmMm?.subarray(from) ?? null,
    rainMm: track.rainMm.subarray(from),
    soilFit: track.soilFit.subarray(from),
  };
}

/** Edges on whole minutes inside the stretch: a window is never promised a minute too early or too late. */
function toWholeMinutes(startMs: number, endMs: number): Span {
  return {
    startMs: Math.ceil(startMs / MINUTE_MS - MINUTE_SLACK) * MINUTE_MS,
    endMs: Math.floor(endMs / MINUTE_MS + MINUTE_SLACK) * MINUTE_MS,
  };
}

/**
 * Every span in which the conditions hold, however short, in whole minutes; with working hours each inside one
 * working day.
 */
export function fitSpans(
  track: Track,
  bandWb: readonly [number, number],
  conditions: Conditions,
  days: readonly Span[],
): Span[] {
  const stretches = fitStretches(track, bandWb, conditions);
  const spans: Span[] = [];
  const keep = (startMs: number, endMs: number) => {
    const span = toWholeMinutes(startMs, endMs);
    if (span.endMs > span.startMs) spans.push(span);
  };
  if (!conditions.work) {
    for (const stretch of stretches) keep(stretch.startMs, stretch.endMs);
    return spans;
  }
  let d = 0;
  for (const stretch of stretches) {
    while (d < days.length && (days[d] as Span).endMs <= stretch.startMs) d++;
    for (let k = d; k < days.length; k++) {
      const day = days[k] as Span;
      if (day.startMs >= stretch.endMs) break;
      keep(Math.max(stretch.startMs, day.startMs), Math.min(stretch.endMs, day.endMs));
    }
  }
  return spans;
}

/** Length of a span, h. */
export function spanHours(span: Span): number {
  return (span.endMs - span.startMs) / HOUR_MS;
}

/** True where the span holds this many hours of work. */
export function holds(span: Span, hours: number): boolean {
  return spanHours(span) >= hours - 1e-9;
}
