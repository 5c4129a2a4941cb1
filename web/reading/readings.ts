import type { LearnedRateRequest, ReadingRequest } from "../../model/drying/index.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import type { Inputs } from "../state/inputs.ts";
import type { ForecastPlace } from "../weather/forecast.ts";
import type { WeatherSource } from "../weather/source.ts";
import { readLocal, writeLocal } from "./local.ts";

/** A moisture that was measured on a cut, with where it was taken. */
export interface Reading {
  /** The cut that it was taken of: its row, in which weather, and the field and crop. */
  readonly optionId: string;
  readonly weather: string;
  readonly field: string;
  /** The route whose passes were made; absent in what an older page kept. */
  readonly route?: RouteKey | null | undefined;
  readonly request: ReadingRequest;
  /** "north end", as written; may be empty. */
  readonly place: string;
  /** When it was written down, UTC ms. */
  readonly keptMs: number;
}

const LEARNED_KEY = "swathclock-learned";
const READINGS_KEY = "swathclock-readings";
/** No swath lies longer, ms: so long a device keeps a cut that was made and its readings. What they taught stays. */
export const LIES_AT_MOST_MS = 14 * 24 * 3_600_000;

/** Field and crop by which a learned rate is kept. */
export function learnedKey(fieldName: string, crop: string): string {
  return `${crop} ${fieldName.trim().toLowerCase()}`;
}

/** The forecast of a place, whichever and whenever. */
export function placeKey({ latitude, longitude }: Pick<ForecastPlace, "latitude" | "longitude">): string {
  return `place ${latitude} ${longitude}`;
}

/** The weather a cut lies in, by which its readings find it again: a newer forecast of a place is the same. */
export function weatherKey(source: WeatherSource): string {
  if (source.kind === "sample") return `sample ${source.id}`;
  if (source.kind === "upload") return `file ${source.name}`;
  return placeKey(source.place);
}

/** The readings of one row of a picture. */
export function readingsOf(
  readings: readonly Reading[],
  { source, inputs }: { readonly source: WeatherSource; readonly inputs: Inputs },
  optionId: string,
): readonly Reading[] {
  const weather = weatherKey(source);
  const field = learnedKey(inputs.fieldName, inputs.crop);
  return readings.filter(
    (each) => each.optionId === optionId && each.weather === weather && each.field === field,
  );
}

function isLearned(value: unknown): value is LearnedRateRequest {
  const one = value as Partial<LearnedRateRequest> | null;
  return (
    typeof one?.rateLnMean === "number" &&
    typeof one.rateLnSd === "number" &&
    typeof one.atUtc === "string" &&
    Number.isFinite(Date.parse(one.atUtc))
  );
}

export type Learned = Readonly<Record<string, LearnedRateRequest>>;

function learnedIn(value: unknown): Learned {
  const pairs = Object.entries((value ?? {}) as object);
  return Object.fromEntries(pairs.filter((pair): pair is [string, LearnedRateRequest] => isLearned(pair[1])));
}

/** What this device learned of each field and crop. */
export function readLearned(): Learned {
  return learnedIn(readLocal(LEARNED_KEY));
}

/** Keeps a learned rate, or forgets it (null). */
export function keepLearned(key: string, rate: LearnedRateRequest | null): Learned {
  const { [key]: _old, ...others } = readLearned();
  const next = rate === null ? others : { ...others, [key]: rate };
  writeLocal(LEARNED_KEY, next);
  return next;
}

function isReading(value: unknown): value is Reading {
  const one = value as Partial<Reading> | null;
  return (
    typeof one?.optionId === "string" &&
    typeof one.weather === "string" &&
    typeof one.field === "string" &&
    typeof one.place === "string" &&
    typeof one.keptMs === "number" &&
    typeof one.request?.atUtc === "string" &&
    typeof one.request.method === "string"
  );
}

/** What is kept: the readings, and what was known of their fields' rates before them. */
interface KeptReadings {
  readonly readings: readonly Reading[];
  readonly before: Learned;
}

/**
 * Readings of the last days with the rates that hold beside them: of a field whose readings are still there, what was known
 * before them, else they would count twice.
 */
export function readReadings(nowMs: number): {
  readonly readings: readonly Reading[];
  readonly learned: Learned;
} {
  const kept = readLocal(READINGS_KEY) as Partial<KeptReadings> | null;
  const all: readonly unknown[] = Array.isArray(kept?.readings) ? kept.readings : [];
  const readings = all.filter(isReading).filter(({ keptMs }) => nowMs - keptMs < LIES_AT_MOST_MS);
  const before = learnedIn(kept?.before);
  const own = new Set(readings.map(({ field }) => field));
  const others = Object.entries(readLearned()).filter(([field]) => !own.has(field));
  const earlier = Object.entries(before).filter(([field]) => own.has(field));
  return { readings, learned: Object.fromEntries([...others, ...earlier]) };
}

export function keepReadings(readings: readonly Reading[], learned: Learned): void {
  const own = new Set(readings.map(({ field }) => field));
  const before = Object.fromEntries(Object.entries(learned).filter(([field]) => own.has(field)));
  writeLocal(READINGS_KEY, { readings, before } satisfies KeptReadings);
}
