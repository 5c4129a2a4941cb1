import type { DrydownAnswer } from "../../model/drying/index.ts";
import type { MoistureMetRequest } from "../../model/odds/record-answer.ts";
import { courseIndexAt } from "../course/reading.ts";

/** Issued forecasts that met a reading, as this device keeps them for the record. */

const MET_KEY = "swathclock-record";
/** Older ones are let go. */
const MOST_MET = 500;

function isMet(value: unknown): value is MoistureMetRequest {
  const one = value as Partial<MoistureMetRequest> | null;
  return (
    typeof one?.issuedUtc === "string" &&
    typeof one.atUtc === "string" &&
    typeof one.observedWb === "number" &&
    typeof one.bandsWb?.p50 === "number"
  );
}

export function readMet(): readonly MoistureMetRequest[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(MET_KEY) ?? "[]");
    return Array.isArray(kept) ? kept.filter(isMet) : [];
  } catch {
    return [];
  }
}

function write(met: readonly MoistureMetRequest[]): void {
  try {
    localStorage.setItem(MET_KEY, JSON.stringify(met.slice(-MOST_MET)));
  } catch {
    // A device that keeps nothing has no record of its own.
  }
}

export function keepMet(one: MoistureMetRequest): void {
  write([...readMet(), one]);
}

/** Takes back what was kept of the reading at that moment. */
export function dropMet(atUtc: string): void {
  write(readMet().filter((one) => one.atUtc !== atUtc));
}

/** The bands that were told for the hour of a reading; null where there were none, or they knew of a reading already. */
export function metOf(
  course: DrydownAnswer,
  reading: { readonly atUtc: string; readonly moistureWb?: number | undefined },
  issuedUtc: string | null | undefined,
  route: string | null,
): MoistureMetRequest | null {
  const { odds } = course;
  const { atUtc, moistureWb } = reading;
  if (!odds || odds.readings !== null || moistureWb === undefined || issuedUtc == null) return null;
  if (Date.parse(atUtc) < Date.parse(issuedUtc)) return null;
  const i = courseIndexAt(course, Date.parse(atUtc));
  if (i === null) return null;
  const at = (values: readonly number[]) => values[i] ?? Number.NaN;
  const { p10, p25, p50, p75, p90 } = odds.moistureWb;
  const bandsWb = { p10: at(p10), p25: at(p25), p50: at(p50), p75: at(p75), p90: at(p90) };
  return { issuedUtc, atUtc, route, bandsWb, observedWb: moistureWb };
}
