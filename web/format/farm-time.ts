import { DAY_MS, HOUR_MS, localDayKey, localParts, startOfLocalDay } from "../../model/weather/clock.ts";

/**
 * Times as the farm's clock shows them, whatever the zone of the machine that draws the page.
 * Every function takes a UTC moment (ISO 8601 ending in Z, or milliseconds) and the farm's IANA zone.
 */

export type Moment = string | number;

const DAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** A moment in UTC milliseconds. */
export function utcMs(moment: Moment): number {
  const ms = typeof moment === "number" ? moment : Date.parse(moment);
  if (!Number.isFinite(ms)) throw new RangeError(`utcMs: not a moment in time, got "${moment}"`);
  return ms;
}

function two(n: number): string {
  return n < 10 ? `0${n}` : String(n);
}

/** "09:00", 24-hour clock. */
export function clockText(moment: Moment, zone: string): string {
  const { hour, minute } = localParts(utcMs(moment), zone);
  return `${two(hour)}:${two(minute)}`;
}

/** "Thursday". */
export function dayText(moment: Moment, zone: string): string {
  return DAYS[localParts(utcMs(moment), zone).weekday] ?? "";
}

/** "Thu". */
export function shortDayText(moment: Moment, zone: string): string {
  return dayText(moment, zone).slice(0, 3);
}

/** "Thu 16", the weekday with the day of the month. */
export function shortDayDateText(moment: Moment, zone: string): string {
  return `${shortDayText(moment, zone)} ${localParts(utcMs(moment), zone).day}`;
}

/** "Thursday 16 Jul". */
export function dayDateText(moment: Moment, zone: string): string {
  const { day, month } = localParts(utcMs(moment), zone);
  return `${dayText(moment, zone)} ${day} ${MONTHS[month - 1] ?? ""}`;
}

/** "Thursday 09:00". */
export function dayClockText(moment: Moment, zone: string): string {
  return `${dayText(moment, zone)} ${clockText(moment, zone)}`;
}

/** "Thu 09:00". */
export function shortDayClockText(moment: Moment, zone: string): string {
  return `${shortDayText(moment, zone)} ${clockText(moment, zone)}`;
}

/** "Thursday 16 Jul 09:00", for tables that span more than a week. */
export function fullText(moment: Moment, zone: string): string {
  return `${dayDateText(moment, zone)} ${clockText(moment, zone)}`;
}

/** "Friday 13:00 to 18:00", or with both days where they differ. */
export function spanText(from: Moment, to: Moment, zone: string): string {
  const sameDay = localDayKey(utcMs(from), zone) === localDayKey(utcMs(to), zone);
  return `${dayClockText(from, zone)} to ${sameDay ? clockText(to, zone) : dayClockText(to, zone)}`;
}

/** A local calendar day as a span of moments: 23, 24 or 25 h. */
export interface FarmDay {
  readonly dayKey: string;
  readonly startMs: number;
  readonly endMs: number;
}

/** The local days that [fromMs, toMs) touches, each cut to that span. */
export function farmDays(fromMs: number, toMs: number, zone: string): FarmDay[] {
  const days: FarmDay[] = [];
  let startMs = fromMs;
  while (startMs < toMs) {
    const dayKey = localDayKey(startMs, zone);
    // 36 h after a day's first moment lies in the next day even when the clock changes.
    const dayStart = startOfLocalDay(zone, dayKey);
    const next = startOfLocalDay(zone, localDayKey(dayStart + DAY_MS + 12 * HOUR_MS, zone));
    const endMs = Math.min(toMs, next);
    days.push({ dayKey, startMs, endMs });
    startMs = endMs;
  }
  return days;
}
