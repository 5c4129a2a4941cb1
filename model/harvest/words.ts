import { HOUR_MS } from "../weather/clock.ts";
import type { FarmClock } from "./work-hours.ts";

const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

function two(n: number): string {
  return n < 10 ? `0${n}` : String(n);
}

/** The clock that moments are told by, and the moment the reader counts from: the cut, or the weather's start. */
export interface Teller {
  readonly clock: FarmClock;
  readonly sinceMs: number;
}

/** Further from the moment the reader counts from than this, a weekday alone could be taken for another week's. */
const DAYS_BY_NAME_ALONE = 5;

/** "Thursday 14:00" on the farm's clock, "Monday 13 Jul 03:58" where it lies more than 5 days off. */
export function whenWords({ clock, sinceMs }: Teller, utcMs: number): string {
  const { month, day, weekday, hour, minute } = clock.partsAt(utcMs);
  const far = Math.abs(utcMs - sinceMs) > DAYS_BY_NAME_ALONE * 24 * HOUR_MS;
  const date = far ? ` ${day} ${MONTHS[month - 1]}` : "";
  return `${WEEKDAYS[weekday]}${date} ${two(hour)}:${two(minute)}`;
}

/** "Thursday 14:00 to 18:30", or with both days where they differ. */
export function spanWords(teller: Teller, startMs: number, endMs: number): string {
  const { clock } = teller;
  const from = whenWords(teller, startMs);
  const to =
    clock.dayNumberAt(startMs) === clock.dayNumberAt(endMs)
      ? whenWords(teller, endMs).slice(-5)
      : whenWords(teller, endMs);
  return `${from} to ${to}`;
}

/** A moisture in per cent: "38 %", with a decimal only where the edge of a band needs it. */
export function percentWords(moistureWb: number): string {
  return `${Math.round(moistureWb * 100)} %`;
}

/** A band edge in per cent, to a tenth where it is not a whole number. */
export function edgeWords(moistureWb: number): string {
  return `${Math.round(moistureWb * 1000) / 10} %`;
}

/** "1 hour", "3.5 hours", "52 hours". */
export function hoursWords(hours: number): string {
  const shown = hours < 10 ? Math.round(hours * 10) / 10 : Math.round(hours);
  return shown === 1 ? "1 hour" : `${shown} hours`;
}

/** Millimetres of rain: "0.4 mm", "12 mm". */
export function rainWords(rainMm: number): string {
  return `${rainMm < 10 ? Math.round(rainMm * 10) / 10 : Math.round(rainMm)} mm`;
}

/** Two lengths of time that must not read alike though they differ: to the minute where the hours would. */
export function unlikeHoursWords(shorter: number, longer: number): readonly [string, string] {
  const words = [hoursWords(shorter), hoursWords(longer)] as const;
  if (words[0] !== words[1]) return words;
  const minutes = (total: number) => `${Math.floor(total / 60)} h ${two(total % 60)} min`;
  return [minutes(Math.floor(shorter * 60 + 1e-6)), minutes(Math.ceil(longer * 60 - 1e-6))];
}
