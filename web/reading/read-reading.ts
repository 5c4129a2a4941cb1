import { BOOK_COUNTS } from "../../model/book/limits.ts";
import { ODDS_LIMITS } from "../../model/drying/limits.ts";
import type { ReadingMethod, ReadingRequest } from "../../model/drying/request.ts";
import type { Limit } from "../../model/limits.ts";
import { SQUEEZE_RANGES } from "../../model/odds/reading-methods.ts";
import { localParts, utcOfLocal } from "../../model/weather/clock.ts";
import { dayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { lengthError } from "../state/names.ts";
import { readLimited } from "../state/numbers.ts";
import type { Reading } from "./readings.ts";

/** A reading as it stands in its fields. */
export interface ReadingTexts {
  readonly method: ReadingMethod;
  /** Per cent, wet basis. */
  readonly value: string;
  /** Which of the squeeze's answers, by its place. */
  readonly squeeze: number;
  /** "2026-06-23T15:30" of the farm's clock. */
  readonly time: string;
  readonly place: string;
  /** What the scale's step is worth, points, where the moisture was weighed here; else absent. */
  readonly scalePoints?: number | undefined;
}

/** What a swath can hold and a method can tell. */
const READING_PCT: Limit = {
  min: 100 * ODDS_LIMITS.readingWb.min,
  max: 100 * ODDS_LIMITS.readingWb.max,
  unit: "%, wet basis",
};

export type ReadingErrors = Readonly<Partial<Record<"value" | "time" | "place", string>>>;

/** A moment as a field of date and time has it, in the farm's zone. */
export function timeField(ms: number, zone: string): string {
  const { year, month, day, hour, minute } = localParts(ms, zone);
  const two = (n: number) => String(n).padStart(2, "0");
  return `${year}-${two(month)}-${two(day)}T${two(hour)}:${two(minute)}`;
}

/** UTC ms of such a field; null where it cannot be read, or the farm's clock skips it. Of an hour that comes twice, the first. */
export function timeOfField(text: string, zone: string): number | null {
  const parts = /^(\d{4}-\d\d-\d\d)T(\d\d):(\d\d)/.exec(text);
  if (!parts) return null;
  const moment = utcOfLocal(zone, parts[1] ?? "", Number(parts[2]), Number(parts[3]));
  if (moment.kind === "one") return moment.utcMs;
  return moment.kind === "twice" ? moment.firstUtcMs : null;
}

/** Minutes that two clocks may differ by, ms: a reading is written down as it is taken. */
export const CLOCKS_APART_MS = 300_000;

/**
 * The reading for the model, or what is wrong with each field.
 *
 * @param nowMs what lies after it has not been read yet; null in weather that is only looked at
 */
export function readReading(
  texts: ReadingTexts,
  { fromMs, toMs, nowMs }: { readonly fromMs: number; readonly toMs: number; readonly nowMs: number | null },
  manner: Manner,
): { readonly errors: ReadingErrors; readonly request: ReadingRequest | null } {
  const errors: { value?: string; time?: string; place?: string } = {};
  const longPlace = lengthError(texts.place.trim(), manner.locale, BOOK_COUNTS.line);
  if (longPlace !== undefined) errors.place = longPlace;
  const atMs = timeOfField(texts.time, manner.zone);
  if (atMs === null) errors.time = `Got "${texts.time}", must be a day and an hour of the farm's clock.`;
  else if (!(atMs >= fromMs && atMs <= toMs))
    errors.time = `Got ${dayClockText(atMs, manner)}, must lie between the cut (${dayClockText(fromMs, manner)}) and the end of the weather (${dayClockText(toMs, manner)}).`;
  else if (nowMs !== null && atMs > nowMs + CLOCKS_APART_MS)
    errors.time = `Got ${dayClockText(atMs, manner)}, must not lie after now (${dayClockText(nowMs, manner)}): a reading is taken in a swath that lies.`;
  const byHand = texts.method === "hand-squeeze";
  const { value: pct, error } = readLimited(texts.value, READING_PCT, manner.locale);
  if (!byHand && error !== undefined) errors.value = error;
  if (atMs === null || Object.keys(errors).length > 0) return { errors, request: null };
  const atUtc = `${new Date(atMs).toISOString().slice(0, 19)}Z`;
  const range = SQUEEZE_RANGES[texts.squeeze]?.range ?? SQUEEZE_RANGES[0].range;
  const request: ReadingRequest = byHand
    ? { atUtc, method: texts.method, range }
    : {
        atUtc,
        method: texts.method,
        moistureWb: Number(((pct ?? 0) / 100).toFixed(4)),
        ...(texts.scalePoints === undefined ? {} : { addedSdWb: addedOf(texts.scalePoints) }),
      };
  return { errors, request };
}

/** What a scale's step adds to a reading's error: one standard deviation, wet-basis fraction. */
export function addedOf(scalePoints: number): number {
  return Number(Math.min(scalePoints / 100, ODDS_LIMITS.addedSdWb.max).toFixed(4));
}

/** Said where the same reading was taken before: counted again it would count as another measurement. */
export const TAKEN_TEXT =
  "This reading is taken already and counts once. Measured again? Name another place, or its own time.";

/** Whether a reading stands there with the same moment, method, moisture and place. */
export function takenAlready(
  readings: readonly Pick<Reading, "request" | "place">[],
  { atUtc, method, moistureWb, range }: ReadingRequest,
  place: string,
): boolean {
  return readings.some(
    ({ request, place: where }) =>
      where === place.trim() &&
      request.atUtc === atUtc &&
      request.method === method &&
      request.moistureWb === moistureWb &&
      request.range?.[0] === range?.[0] &&
      request.range?.[1] === range?.[1],
  );
}
