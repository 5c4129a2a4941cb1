import { HOUR_MS, isNamedAlone } from "../weather/clock.ts";
import type { Saying } from "./saying.ts";
import type { FarmClock } from "./work-hours.ts";

const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;
export const MONTHS = [
  "Jan",
  "Feb",
  "Mar",
  "Apr",
  "May",
  "Jun",
  "Jul",
  "Aug",
  "Sep",
  "Oct",
  "Nov",
  "Dec",
] as const;

function two(n: number): string {
  return n < 10 ? `0${n}` : String(n);
}

/** A fixed text whose decimals take the reader's mark. */
export function withMark(text: string, { decimalMark }: Saying): string {
  return text.replace(/(\d)\.(\d)/g, `$1${decimalMark}$2`);
}

/** A number with the saying's decimal mark. */
export function numberWords(value: number, { decimalMark }: Saying): string {
  return String(value).replace(".", decimalMark);
}

/** "14:00"; on a 12-hour clock "2 pm", "2:30 pm", and "noon", which "12 pm" leaves in doubt. */
export function clockWords({ hour12 }: Pick<Saying, "hour12">, hour: number, minute: number): string {
  if (!hour12) return `${two(hour)}:${two(minute)}`;
  if (hour === 12 && minute === 0) return "noon";
  return `${hour % 12 || 12}${minute === 0 ? "" : `:${two(minute)}`} ${hour % 24 < 12 ? "am" : "pm"}`;
}

/** "Monday 13 Jul 14:00", of the parts of a local time. */
export function dateWords(
  saying: Pick<Saying, "hour12">,
  {
    weekday,
    day,
    month,
    hour,
    minute,
  }: Readonly<Record<"weekday" | "day" | "month" | "hour" | "minute", number>>,
): string {
  return `${WEEKDAYS[weekday]} ${day} ${MONTHS[month - 1]} ${clockWords(saying, hour, minute)}`;
}

/** The clock that moments are told by, and the moment the reader counts from: now, or the weather's start. */
export interface Teller {
  readonly clock: FarmClock;
  readonly saying: Saying;
  readonly sinceMs: number;
}

const MINUTE_MS = HOUR_MS / 60;

/** Labels are to the second: a moment that is over a step by less than that is told as the step. */
const LABEL_MS = 1000;

/**
 * A moment as every text tells it: a lone one and a start up to the next step, an end down. UTC ms.
 *
 * @param stepMin 1 = as it is
 */
export function stepped(utcMs: number, stepMin: number, to: "up" | "down" = "up"): number {
  if (stepMin === 1) return utcMs;
  const stepMs = stepMin * MINUTE_MS;
  return (
    stepMs * (to === "up" ? Math.ceil((utcMs - LABEL_MS) / stepMs) : Math.floor((utcMs + LABEL_MS) / stepMs))
  );
}

/** A span brought inward to whole steps, UTC ms; as it is where that would leave nothing. */
export function inwardSpan(startMs: number, endMs: number, stepMin: number): readonly [number, number] {
  const from = stepped(startMs, stepMin, "up");
  const to = stepped(endMs, stepMin, "down");
  return from < to ? [from, to] : [startMs, endMs];
}

function timeWords({ clock, saying }: Teller, utcMs: number): string {
  const { hour, minute } = clock.partsAt(utcMs);
  return clockWords(saying, hour, minute);
}

function exactWords(teller: Teller, utcMs: number): string {
  const { clock, sinceMs } = teller;
  const { month, day, weekday } = clock.partsAt(utcMs);
  const near = isNamedAlone(clock.dayNumberAt(utcMs) - clock.dayNumberAt(sinceMs));
  const date = near ? "" : ` ${day} ${MONTHS[month - 1]}`;
  return `${WEEKDAYS[weekday]}${date} ${timeWords(teller, utcMs)}`;
}

/** "Thursday 14:00" on the farm's clock, "Monday 13 Jul 03:58" where the weekday alone could be that of another week. */
export function whenWords(teller: Teller, utcMs: number): string {
  return exactWords(teller, stepped(utcMs, teller.saying.stepMin, "up"));
}

/** "Thursday 14:00 to 18:30", or with both days where they differ. */
export function spanWords(teller: Teller, startMs: number, endMs: number): string {
  const { clock, saying } = teller;
  const [from, to] = inwardSpan(startMs, endMs, saying.stepMin);
  const sameDay = clock.dayNumberAt(from) === clock.dayNumberAt(to);
  return `${exactWords(teller, from)} to ${sameDay ? timeWords(teller, to) : exactWords(teller, to)}`;
}

/** A moisture in per cent: "38 %", with a decimal only where the edge of a band needs it. */
export function percentWords(moistureWb: number): string {
  return `${Math.round(moistureWb * 100)} %`;
}

/** A band edge in per cent, to a tenth where it is not a whole number. */
export function edgeWords(moistureWb: number, saying: Saying): string {
  return `${numberWords(Math.round(moistureWb * 1000) / 10, saying)} %`;
}

/** "1 hour", "3.5 hours", "52 hours". */
export function hoursWords(hours: number, saying: Saying): string {
  const shown = hours < 10 ? Math.round(hours * 10) / 10 : Math.round(hours);
  return shown === 1 ? "1 hour" : `${numberWords(shown, saying)} hours`;
}

const MM_PER_IN = 25.4;
const LEAST_IN = 0.01;

/** Rain: "0.4 mm", "12 mm"; "0.47 in", and less than a hundredth told as that. */
export function rainWords(rainMm: number, saying: Saying): string {
  if (saying.units === "us") {
    const inches = Math.round((rainMm / MM_PER_IN) * 100) / 100;
    return rainMm > 0 && inches === 0
      ? `under ${numberWords(LEAST_IN, saying)} in`
      : `${numberWords(inches, saying)} in`;
  }
  return `${numberWords(rainMm < 10 ? Math.round(rainMm * 10) / 10 : Math.round(rainMm), saying)} mm`;
}

/** Square feet of an acre by the foot, m². */
const M2_PER_AC = 43_560 * 0.3048 ** 2;

/** Area covered in an hour: "4.5 ha/h", "11.1 ac/h". */
export function areaRateWords(haPerH: number, saying: Saying): string {
  const us = saying.units === "us";
  const shown = (us ? (haPerH * 1e4) / M2_PER_AC : haPerH).toFixed(1);
  return `${shown.replace(".", saying.decimalMark)} ${us ? "ac/h" : "ha/h"}`;
}

const T_PER_TON = (2000 * 0.45359237) / 1000;

/** A price by weight: "180 a t", "163 a ton". */
export function priceWords(perT: number, saying: Saying): string {
  const us = saying.units === "us";
  const price = us ? perT * T_PER_TON : perT;
  return `${numberWords(Number(price.toFixed(us ? 0 : 2)), saying)} ${us ? "a ton" : "a t"}`;
}

/** A clock reading of a request, "08:00" to "24:00", as the clock of the saying has it. */
export function readingWords(reading: string, saying: Saying): string {
  if (!saying.hour12) return reading;
  return clockWords(saying, Number(reading.slice(0, 2)), Number(reading.slice(3, 5)));
}

/** Two lengths of time that must not read alike though they differ: to the minute where the hours would. */
export function unlikeHoursWords(shorter: number, longer: number, saying: Saying): readonly [string, string] {
  const words = [hoursWords(shorter, saying), hoursWords(longer, saying)] as const;
  if (words[0] !== words[1]) return words;
  const minutes = (total: number) => `${Math.floor(total / 60)} h ${two(total % 60)} min`;
  return [minutes(Math.floor(shorter * 60 + 1e-6)), minutes(Math.ceil(longer * 60 - 1e-6))];
}
