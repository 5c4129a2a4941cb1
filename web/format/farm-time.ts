import { clockWords } from "../../model/harvest/words.ts";
import {
  DAY_MS,
  daysBetween,
  HOUR_MS,
  isNamedAlone,
  localDayKey,
  localOffsetMs,
  localParts,
  startOfLocalDay,
} from "../../model/weather/clock.ts";
import type { Manner } from "./manner.ts";

/**
 * Times as the farm's clock shows them, whatever the zone of the machine that draws the page.
 * Every text takes a UTC moment (ISO 8601 ending in Z, or milliseconds) and how the page speaks.
 */

export type Moment = string | number;

/** The zone alone says the day, the 12 or 24 h clock the hour. */
export type Calendar = Pick<Manner, "zone" | "thisYear" | "nearDay">;
export type Clock = Calendar & Pick<Manner, "hour12">;

const DAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** A moment in UTC milliseconds. */
export function utcMs(moment: Moment): number {
  const ms = typeof moment === "number" ? moment : Date.parse(moment);
  if (!Number.isFinite(ms)) throw new RangeError(`utcMs: not a moment in time, got "${moment}"`);
  return ms;
}

/** Clocks are set back at night: a reading in these hours may come twice. */
const mayComeTwice = (hour: number) => hour < 4 || hour === 23;

/** How far to each side of a moment its zone's other offset is looked for, ms. */
const BESIDE_MS = 3 * HOUR_MS;

/** Which of two moments with the same reading this is, where a clock that is set back shows it twice; else "". */
function ofTwo(ms: number, zone: string): "" | " first" | " again" {
  const offsetMs = localOffsetMs(zone, ms);
  for (const besideMs of [ms - BESIDE_MS, ms + BESIDE_MS]) {
    const otherMs = ms + offsetMs - localOffsetMs(zone, besideMs);
    if (otherMs !== ms && localOffsetMs(zone, otherMs) === ms + offsetMs - otherMs)
      return otherMs < ms ? " again" : " first";
  }
  return "";
}

function plainClockText(moment: Moment, { zone, hour12 }: Clock): string {
  const { hour, minute } = localParts(utcMs(moment), zone);
  return clockWords({ hour12 }, hour, minute);
}

/**
 * "09:00"; on a 12-hour clock "9 am", "1:30 pm", and "noon", which "12 pm" leaves in doubt. An hour that comes twice as the
 * clock is set back is told apart: "02:00 first", "02:00 again".
 */
export function clockText(moment: Moment, clock: Clock): string {
  const ms = utcMs(moment);
  const plain = plainClockText(ms, clock);
  return mayComeTwice(localParts(ms, clock.zone).hour) ? `${plain}${ofTwo(ms, clock.zone)}` : plain;
}

/** The hour alone, for a tick: "06", "6 am". */
export function hourTickText(moment: Moment, clock: Clock): string {
  const plain = plainClockText(moment, clock);
  return clock.hour12 ? plain : plain.slice(0, 2);
}

function weekdayText(moment: Moment, { zone }: Calendar): string {
  return DAYS[localParts(utcMs(moment), zone).weekday] ?? "";
}

/** Whether a weekday alone says which day is meant: the one rule for all words of the page. */
function goesByName(moment: Moment, calendar: Calendar): boolean {
  const { zone, nearDay } = calendar;
  if (nearDay === undefined) return otherYear(moment, calendar) === null;
  return nearDay !== null && isNamedAlone(daysBetween(nearDay, localDayKey(utcMs(moment), zone)));
}

/** "Thursday"; "Thursday 25 Jun" where the weekday alone could be that of another week. */
export function dayText(moment: Moment, calendar: Calendar): string {
  return goesByName(moment, calendar) ? weekdayText(moment, calendar) : dayDateText(moment, calendar);
}

/** "Thu", under a calendar that says the date. */
export function shortDayText(moment: Moment, calendar: Calendar): string {
  return weekdayText(moment, calendar).slice(0, 3);
}

/** "Thu 16", the weekday with the day of the month. */
export function shortDayDateText(moment: Moment, calendar: Calendar): string {
  return `${shortDayText(moment, calendar)} ${localParts(utcMs(moment), calendar.zone).day}`;
}

/** The year of a moment where it is not the present one; null where it is, or where years do not count. */
export function otherYear(moment: Moment, { zone, thisYear }: Calendar): number | null {
  const { year } = localParts(utcMs(moment), zone);
  return thisYear === undefined || year === thisYear ? null : year;
}

/** "Thursday 16 Jul", in another year "Thursday 16 Jul 2015". */
export function dayDateText(moment: Moment, calendar: Calendar): string {
  const { day, month } = localParts(utcMs(moment), calendar.zone);
  const year = otherYear(moment, calendar);
  return `${weekdayText(moment, calendar)} ${day} ${MONTHS[month - 1] ?? ""}${year === null ? "" : ` ${year}`}`;
}

/** "Thursday 09:00"; "Thursday 25 Jun 09:00" where the weekday alone could be that of another week. */
export function dayClockText(moment: Moment, clock: Clock): string {
  return `${dayText(moment, clock)} ${clockText(moment, clock)}`;
}

/** "Thu 09:00"; "Thu 25 Jun 09:00" where the weekday alone could be that of another week. */
export function shortDayClockText(moment: Moment, clock: Clock): string {
  if (!goesByName(moment, clock)) return shortDateClockText(moment, clock);
  return `${shortDayText(moment, clock)} ${clockText(moment, clock)}`;
}

/** "Thu 09:00", else "Thu 25 09:00": where room is short and the calendar beside it says the month. With 2 letters "Th 25 09:00". */
export function briefDayClockText(moment: Moment, clock: Clock, letters = 3): string {
  if (goesByName(moment, clock)) return shortDayClockText(moment, clock);
  return `${shortDayText(moment, clock).slice(0, letters)}${shortFullText(moment, clock).slice(3)}`;
}

/** "Thu 16 Jul 09:00", where a weekday alone could be that of another week. */
export function shortDateClockText(moment: Moment, clock: Clock): string {
  const { day, month } = localParts(utcMs(moment), clock.zone);
  const year = otherYear(moment, clock);
  const date = `${shortDayText(moment, clock)} ${day} ${MONTHS[month - 1] ?? ""}${year === null ? "" : ` ${year}`}`;
  return `${date} ${clockText(moment, clock)}`;
}

/** "Thursday 16 Jul 09:00", for tables that span more than a week. */
export function fullText(moment: Moment, clock: Clock): string {
  return `${dayDateText(moment, clock)} ${clockText(moment, clock)}`;
}

/** "Thu 16 09:00", for tables where room is short. */
export function shortFullText(moment: Moment, clock: Clock): string {
  return `${shortDayDateText(moment, clock)} ${clockText(moment, clock)}`;
}

/** "Friday 13:00 to 18:00", with both days where they differ. */
export function spanText(from: Moment, to: Moment, clock: Clock): string {
  const sameDay = localDayKey(utcMs(from), clock.zone) === localDayKey(utcMs(to), clock.zone);
  return `${dayClockText(from, clock)} to ${sameDay ? clockText(to, clock) : dayClockText(to, clock)}`;
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
