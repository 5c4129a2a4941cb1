import type { LearnedRateRequest, ReadingRequest } from "../../model/drying/index.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
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
  /** What was known of the field's rate without the readings of this cut; null = nothing. */
  readonly before?: LearnedRateRequest | null | undefined;
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

interface Where {
  readonly source: WeatherSource;
  readonly inputs: Inputs;
}

/** By which a taught rate is kept: what invented weather taught is no knowledge of a field of that name. */
export function rateKey({ source, inputs }: Where): string {
  const key = learnedKey(inputs.fieldName, inputs.crop);
  return source.kind === "sample" ? `sample ${key}` : key;
}

/** The readings of one row of a picture. */
export function readingsOf(
  readings: readonly Reading[],
  { source, inputs }: Where,
  optionId: string,
): readonly Reading[] {
  const weather = weatherKey(source);
  const field = learnedKey(inputs.fieldName, inputs.crop);
  return readings.filter(
    (each) => each.optionId === optionId && each.weather === weather && each.field === field,
  );
}

/** The moment of the cut that a row is named by. */
export function cutOfRow(optionId: string): string {
  return optionId.split("/")[0] ?? "";
}

/**
 * The readings that count on this field's board: of its field and crop, under this weather, and of a cut and an hour that
 * the weather reaches. Of any other the board knows nothing but what it taught before.
 */
export function readingsHere(readings: readonly Reading[], { source, inputs }: Where): readonly Reading[] {
  const weather = weatherKey(source);
  const field = learnedKey(inputs.fieldName, inputs.crop);
  const { startUtc } = source.series.hours;
  const fromMs = Date.parse(startUtc[0] ?? "");
  const toMs = Date.parse(startUtc.at(-1) ?? "") + HOUR_MS;
  return readings.filter(
    (one) =>
      one.weather === weather &&
      one.field === field &&
      Date.parse(cutOfRow(one.optionId)) >= fromMs &&
      Date.parse(one.request.atUtc) <= toMs,
  );
}

/**
 * The rate that the board of a field goes by beside its readings: what was known before those that count on it, else they
 * would count twice; where none counts, all that the field ever taught.
 */
export function rateBeside(
  { readings, learned }: { readonly readings: readonly Reading[]; readonly learned: Learned },
  where: Where,
): LearnedRateRequest | null {
  const [first] = readingsHere(readings, where);
  return first === undefined ? (learned[rateKey(where)] ?? null) : (first.before ?? null);
}

/**
 * What is known of the rate before the readings of one cut, to be kept with them: without those that it has already.
 *
 * @param taught what all readings that count here taught together; null = nothing
 */
export function rateBefore(
  state: { readonly readings: readonly Reading[]; readonly learned: Learned },
  where: Where,
  optionId: string,
  taught: LearnedRateRequest | null,
): LearnedRateRequest | null {
  const here = readingsHere(state.readings, where);
  const own = here.find((one) => one.optionId === optionId);
  if (own !== undefined) return own.before ?? null;
  return (here.length === 0 ? null : taught) ?? rateBeside(state, where);
}

/** Without one of them. What its cut taught is known before the others no more. */
export function withoutReading(
  readings: readonly Reading[],
  gone: Reading,
  before: LearnedRateRequest | null,
): readonly Reading[] {
  return readings
    .filter((one) => one !== gone)
    .map((one) => (one.weather === gone.weather && one.field === gone.field ? { ...one, before } : one));
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

/** What is kept. Older pages kept what was known before the readings once for each field. */
interface KeptReadings {
  readonly readings: readonly Reading[];
  readonly before?: Learned;
}

/** Readings of the last days, and all that this device learned of each field, by them too. */
export function readReadings(nowMs: number): {
  readonly readings: readonly Reading[];
  readonly learned: Learned;
} {
  const kept = readLocal(READINGS_KEY) as Partial<KeptReadings> | null;
  const all: readonly unknown[] = Array.isArray(kept?.readings) ? kept.readings : [];
  const before = learnedIn(kept?.before);
  const readings = all
    .filter(isReading)
    .filter(({ keptMs }) => nowMs - keptMs < LIES_AT_MOST_MS)
    .map((one) => ({ ...one, before: isLearned(one.before) ? one.before : (before[one.field] ?? null) }));
  return { readings, learned: readLearned() };
}

export function keepReadings(readings: readonly Reading[]): void {
  writeLocal(READINGS_KEY, { readings } satisfies KeptReadings);
}
