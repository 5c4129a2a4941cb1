import type { AsIssuedAnswer } from "../../model/drying/index.ts";
import type { ChanceMetRequest, MoistureMetRequest } from "../../model/odds/record-answer.ts";
import type { RouteBand } from "../worker/route-bands.ts";
import { readLocal, writeLocal } from "./local.ts";

/** Issued forecasts that met a reading, as this device keeps them for the record. */

const MET_KEY = "swathclock-record";
/** Older ones are let go. */
const MOST_MET = 500;

/** A reading with what was forecast of it: the moisture, and for each route the chance of having come down to its band. */
export interface Met extends MoistureMetRequest {
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

/** Keeps it once: the first forecast that met a reading is the one that is scored. */
export function keepMet(one: Met): void {
  const kept = readMet();
  const known = kept.some(({ atUtc, observedWb }) => atUtc === one.atUtc && observedWb === one.observedWb);
  if (!known) write([...kept, one]);
}

/** Takes back what was kept of the reading at that moment. */
export function dropMet(atUtc: string): void {
  write(readMet().filter((one) => one.atUtc !== atUtc));
}

/** What was forecast for the hour of a reading, with what was read; null for an interval, or a forecast issued after it. */
export function metOf(
  { atUtc, bandsWb, targets }: AsIssuedAnswer,
  { moistureWb }: { readonly moistureWb?: number | undefined },
  issuedUtc: string | null | undefined,
  route: string | null,
  bands: readonly RouteBand[],
): Met | null {
  if (moistureWb === undefined || issuedUtc == null) return null;
  if (Date.parse(atUtc) < Date.parse(issuedUtc)) return null;
  const chances = bands.flatMap(({ route: own, bandWb: [, topWb] }): ChanceMetRequest[] => {
    const target = targets.find(({ targetWb }) => targetWb === topWb);
    return target ? [{ issuedUtc, atUtc, route: own, chance: target.chance, came: moistureWb <= topWb }] : [];
  });
  return { issuedUtc, atUtc, route, bandsWb, observedWb: moistureWb, chances };
}
