import type { AsIssuedAnswer } from "../../model/drying/index.ts";
import type { ChanceMetRequest, MoistureMetRequest } from "../../model/odds/record-answer.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import type { RouteBand } from "../worker/route-bands.ts";
import { readLocal, writeLocal } from "./local.ts";
import type { Reading } from "./readings.ts";

/** Issued forecasts that met a reading, as this device keeps them for the record. */

const MET_KEY = "swathclock-record";
/** Older ones are let go. */
const MOST_MET = 500;

/** A reading with what was forecast of it: the moisture, and for each route the chance of having come down to its band. */
export interface Met extends MoistureMetRequest {
  /** Which reading it is of: `metKey`; absent in what an older page kept. */
  readonly of?: string;
  /** True where the service told no time of issue: `issuedUtc` is then when the forecast was had. */
  readonly had?: boolean;
  readonly chances?: readonly ChanceMetRequest[];
}

function isMet(value: unknown): value is Met {
  const one = value as Partial<Met> | null;
  return (
    typeof one?.issuedUtc === "string" &&
    typeof one.atUtc === "string" &&
    typeof one.observedWb === "number" &&
    typeof one.bandsWb?.p50 === "number"
  );
}

export function readMet(): readonly Met[] {
  const kept = readLocal(MET_KEY);
  return Array.isArray(kept) ? kept.filter(isMet) : [];
}

const listeners = new Set<() => void>();

/** Calls back whenever what is kept has changed. Returns how to stop. */
export function onMet(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function write(met: readonly Met[]): void {
  writeLocal(MET_KEY, met.slice(-MOST_MET));
  for (const listener of listeners) listener();
}

/** One reading among all that were taken: two fields, two cuts or two places may well agree to the minute and the tenth. */
export function metKey({ weather, field, optionId, place, request }: Reading): string {
  const { atUtc, method, moistureWb } = request;
  return [weather, field, optionId, place.trim(), atUtc, method, moistureWb ?? ""].join("|");
}

function isOf(met: Met, key: string, atUtc: string, observedWb: number | undefined): boolean {
  return met.of === undefined ? met.atUtc === atUtc && met.observedWb === observedWb : met.of === key;
}

/** Keeps each issued forecast that met a reading, once. */
export function keepMet(one: Met): void {
  const kept = readMet();
  const same = (other: Met) =>
    other.issuedUtc === one.issuedUtc && isOf(other, one.of ?? "", one.atUtc, one.observedWb);
  if (!kept.some(same)) write([...kept, one]);
}

/** Takes back what was kept of this reading, and of no other. */
export function dropMet(reading: Reading): void {
  const { atUtc, moistureWb } = reading.request;
  write(readMet().filter((one) => !isOf(one, metKey(reading), atUtc, moistureWb)));
}

/** When a forecast was issued, or, where its service does not tell, when it was had; null where neither is known. */
export function issueOf({
  issuedUtc,
  fetchedUtc,
}: Pick<WeatherSeries, "issuedUtc" | "fetchedUtc">): Pick<Met, "issuedUtc" | "had"> | null {
  if (issuedUtc != null) return { issuedUtc };
  return fetchedUtc == null ? null : { issuedUtc: fetchedUtc, had: true };
}

/** What was forecast for the hour of a reading, with what was read; null for an interval, or a forecast issued after it. */
export function metOf(
  { atUtc, bandsWb, targets }: AsIssuedAnswer,
  { moistureWb }: { readonly moistureWb?: number | undefined },
  issue: ReturnType<typeof issueOf>,
  route: string | null,
  bands: readonly RouteBand[],
): Met | null {
  if (moistureWb === undefined || issue === null) return null;
  const { issuedUtc } = issue;
  if (Date.parse(atUtc) < Date.parse(issuedUtc)) return null;
  const chances = bands.flatMap(({ route: own, bandWb: [, topWb] }): ChanceMetRequest[] => {
    const target = targets.find(({ targetWb }) => targetWb === topWb);
    return target ? [{ issuedUtc, atUtc, route: own, chance: target.chance, came: moistureWb <= topWb }] : [];
  });
  return { ...issue, atUtc, route, bandsWb, observedWb: moistureWb, chances };
}
