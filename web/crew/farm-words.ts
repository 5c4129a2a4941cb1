import { clockWords } from "../../model/harvest/words.ts";
import { shortDateClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";

const TIMES =
  /\b\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?Z\b|\b((?:[01]\d|2[0-3])):([0-5]\d)\b(?:-((?:[01]\d|2[0-4])):([0-5]\d)\b)?/g;

/** A sentence of the plan with its times on the reader's clock; moments in UTC are told in the farm's time. */
export function farmWords(text: string, manner: Manner): string {
  return text.replace(TIMES, (found, hour?: string, minute?: string, toHour?: string, toMinute?: string) => {
    if (hour === undefined || minute === undefined) return shortDateClockText(found, manner);
    const from = clockWords(manner, Number(hour), Number(minute));
    if (toHour === undefined || toMinute === undefined) return from;
    return `${from} to ${clockWords(manner, Number(toHour), Number(toMinute))}`;
  });
}

/** "farm time, America/Chicago". */
export function zoneWords(zone: string): string {
  return `farm time, ${zone.replaceAll("_", " ")}`;
}
