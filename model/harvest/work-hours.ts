import type { LocalParts } from "../weather/clock.ts";
import {
  addDays,
  HOUR_MS,
  localDays,
  localOffsetMs,
  localOffsetsMs,
  localPartsAt,
  utcOfLocal,
} from "../weather/clock.ts";
import type { WorkHours } from "./request.ts";

/** A span of time, UTC ms, from its start up to its end. */
export interface Span {
  readonly startMs: number;
  readonly endMs: number;
}

/** The clock of the farm over a stretch of hours, without asking the zone's rules again for each moment. */
export interface FarmClock {
  readonly zone: string;
  partsAt(utcMs: number): LocalParts;
  /** Whole local days since 1970: two moments of one local day give the same number. */
  dayNumberAt(utcMs: number): number;
}

const DAY_MS = 24 * HOUR_MS;

/** A clock that is quick within [fromMs, toMs] and right everywhere. */
export function farmClock(zone: string, fromMs: number, toMs: number): FarmClock {
  const count = Math.max(0, Math.ceil((toMs - fromMs) / HOUR_MS)) + 2;
  const offsets = localOffsetsMs(zone, fromMs, count);
  const offsetAt = (utcMs: number): number => {
    const i = Math.floor((utcMs - fromMs) / HOUR_MS);
    const here = offsets[i];
    // Some zones change their clock inside an hour of the series: ask the zone itself there.
    return here !== undefined && here === offsets[i + 1] ? here : localOffsetMs(zone, utcMs);
  };
  return {
    zone,
    partsAt: (utcMs) => localPartsAt(utcMs, offsetAt(utcMs)),
    dayNumberAt: (utcMs) => Math.floor((utcMs + offsetAt(utcMs)) / DAY_MS),
  };
}

function hourAndMinute(reading: string): { hour: number; minute: number } {
  return { hour: Number(reading.slice(0, 2)), minute: Number(reading.slice(3, 5)) };
}

/** The moment the clock shows this reading; where it is jumped over, the moment of the jump. */
function momentOf(zone: string, dayKey: string, reading: string, which: "first" | "second"): number {
  const { hour, minute } = hourAndMinute(reading);
  const found = utcOfLocal(zone, dayKey, hour, minute);
  if (found.kind === "one") return found.utcMs;
  if (found.kind === "twice") return which === "first" ? found.firstUtcMs : found.secondUtcMs;
  // A skipped reading lies inside one jump. Search for the jump to the minute: it is where the offset changes.
  let lo = Date.UTC(+dayKey.slice(0, 4), +dayKey.slice(5, 7) - 1, +dayKey.slice(8, 10)) - DAY_MS;
  let hi = lo + 3 * DAY_MS;
  const before = localOffsetMs(zone, lo);
  while (hi - lo > 60_000) {
    const middle = lo + Math.round((hi - lo) / 120_000) * 60_000;
    if (localOffsetMs(zone, middle) === before) lo = middle;
    else hi = middle;
  }
  return hi;
}

/**
 * The working days that touch [fromMs, toMs), as spans of true time.
 *
 * A day's span runs from the moment the farm's clock shows `from` to the moment it shows `to`, the next day when `to`
 * is not later. On the day of a clock change the span is as many true hours as pass between the two readings: a reading
 * that is jumped over is taken at the jump, one that comes twice is taken the first time for `from` and the second
 * time for `to`. No hour belongs to two days: a day begins no earlier than the one before it ended.
 */
export function workSpans(zone: string, work: WorkHours, fromMs: number, toMs: number): Span[] {
  const overnight = work.to <= work.from;
  const days = localDays(fromMs, toMs, zone);
  const first = days[0];
  if (first === undefined) return [];
  const spans: Span[] = [];
  let previousEndMs = Number.NEGATIVE_INFINITY;
  for (const dayKey of overnight ? [addDays(first, -1), ...days] : days) {
    const startMs = Math.max(previousEndMs, momentOf(zone, dayKey, work.from, "first"));
    const endMs = momentOf(zone, overnight ? addDays(dayKey, 1) : dayKey, work.to, "second");
    if (endMs > startMs && endMs > fromMs && startMs < toMs) spans.push({ startMs, endMs });
    previousEndMs = Math.max(previousEndMs, endMs);
  }
  return spans;
}

/** True where the whole of [startMs, endMs] lies inside one working day. */
export function insideOneDay(spans: readonly Span[], startMs: number, endMs: number): boolean {
  return spans.some((span) => startMs >= span.startMs && endMs <= span.endMs);
}

/** What is left of the working days from a moment on; all of them where there is none. */
export function daysFrom(spans: readonly Span[], fromMs: number | undefined): readonly Span[] {
  if (fromMs === undefined) return spans;
  return spans
    .filter(({ endMs }) => endMs > fromMs)
    .map(({ startMs, endMs }) => ({ startMs: Math.max(startMs, fromMs), endMs }));
}
