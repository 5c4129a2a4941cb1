import { CLOCK_READING, CLOCK_READING_OR_24 } from "../../model/harvest/index.ts";
import type { TextField } from "./inputs.ts";

/** Times of day as people type them: "07:00", "7 am", "1:30 pm", "noon"; hours also as "9". */

const AM_PM = /\s*([ap])\.?\s?m\.?/gi;

/** "7 a.m." and "7 AM" become "7am", so that a list of times can be parted at its spaces. */
function joined(text: string): string {
  return text.trim().toLowerCase().replace(AM_PM, "$1m");
}

function two(n: number): string {
  return String(n).padStart(2, "0");
}

/** A reading as hour and minute; null where it is none. "7" alone is an hour of the day's 24, as in a list of cut hours. */
function parsed(word: string): readonly [number, number] | null {
  if (word === "noon") return [12, 0];
  if (word === "midnight") return [24, 0];
  const match = /^(\d{1,2})(?::(\d\d))?(am|pm)?$/.exec(word);
  if (match === null) return null;
  const [, hourText = "", minuteText, half] = match;
  const hour = Number(hourText);
  const minute = Number(minuteText ?? 0);
  if (half === undefined) return [hour, minute];
  if (hour < 1 || hour > 12) return null;
  return [(hour % 12) + (half === "pm" ? 12 : 0), minute];
}

/**
 * A time of day as the model takes it, "HH:MM".
 *
 * @param end true for the end of a working day, which may be 24:00
 * @returns null where it cannot be read
 */
export function readClock(text: string, end: boolean): string | null {
  const word = joined(text);
  const time = parsed(word);
  if (time === null) return null;
  const [hour, minute] = time;
  const reading = word === "midnight" && !end ? "00:00" : `${two(hour)}:${two(minute)}`;
  return (end ? CLOCK_READING_OR_24 : CLOCK_READING).test(reading) ? reading : null;
}

/** A whole hour of the day: "9", "09:00", "9 am". Null where it is none; limits are held elsewhere. */
export function readHour(text: string): number | null {
  const word = joined(text);
  if (/^\d{1,2}$/.test(word)) return Number(word);
  const time = parsed(word);
  if (time === null || time[1] !== 0) return null;
  return word === "midnight" ? 0 : time[0];
}

/** A comma right between digits may part two hours or stand for a decimal point: "3,5". */
const TWOFOLD_COMMA = /(?<![\d,])\d{1,2},\d(?![\d:,]|\s*[ap]m)/;

/** The piece of a list that may be one number or two; null where there is none. */
export function twofoldHours(text: string): string | null {
  const list = joined(text);
  // "9,13,17" and "7,9 11" with a comma and a space elsewhere are lists beyond doubt.
  return /,\s*\d{2}/.test(list) || /,\s/.test(list) ? null : (TWOFOLD_COMMA.exec(list)?.[0] ?? null);
}

/** The times of a list, parted by spaces, commas or semicolons. */
export function hourWords(text: string): string[] {
  return joined(text)
    .split(/[\s,;]+/)
    .filter((word) => word !== "");
}

function spoken(hour: number, minute: number, hour12: boolean): string {
  if (!hour12) return `${two(hour)}:${two(minute)}`;
  if (minute === 0 && hour === 12) return "noon";
  if (hour === 24) return "midnight";
  return `${hour % 12 || 12}${minute === 0 ? "" : `:${two(minute)}`} ${hour < 12 ? "am" : "pm"}`;
}

/** A typed time on the clock of the reader, 12 or 24 hours; as typed where it cannot be read, and for other fields. */
export function shownClock(field: TextField, text: string, hour12: boolean): string {
  switch (field) {
    case "workFrom":
    case "workTo": {
      const reading = readClock(text, field === "workTo");
      if (reading === null) return text;
      const [hour = "", minute = ""] = reading.split(":");
      return spoken(Number(hour), Number(minute), hour12);
    }
    case "tedHour": {
      const hour = readHour(text);
      return hour === null || hour > 23 ? text : spoken(hour, 0, hour12);
    }
    case "cutHours": {
      const hours = hourWords(text).map(readHour);
      if (hours.some((hour) => hour === null || hour > 23)) return text;
      return hours
        .map((hour) => (hour12 ? spoken(hour ?? 0, 0, true) : String(hour)))
        .join(hour12 ? ", " : " ");
    }
    default:
      return text;
  }
}
