import type { ReadingAnswer } from "../drying/answer.ts";
import { DRYING_PARAMETERS, type DryingParameters } from "../drying/coefficients.ts";
import { neverShare, type QuantilesOrNever, quantilesOrNever } from "./quantiles.ts";
import type { Draw } from "./sample.ts";

/** The drying parameters of one draw: its rate factor multiplies the conductance of fresh tissue. */
export function parametersOfDraw({ rateFactor }: Pick<Draw, "rateFactor">): DryingParameters {
  return { ...DRYING_PARAMETERS, freshConductance: DRYING_PARAMETERS.freshConductance * rateFactor };
}

export interface TargetOdds {
  readonly targetWb: number;
  /** Share of the draws that reach it within the weather. */
  readonly chance: number;
  readonly neverShare: number;
  readonly elapsedHours: QuantilesOrNever;
}

/** Odds of one target from each draw's hours to it, null = never. Draws are equally weighted. */
export function targetOdds(targetWb: number, elapsedHours: readonly (number | null)[]): TargetOdds {
  const never = neverShare(elapsedHours);
  if (never === null) throw new RangeError("targetOdds: needs at least one draw, got 0");
  return { targetWb, chance: 1 - never, neverShare: never, elapsedHours: quantilesOrNever(elapsedHours) };
}

/** Rain on the swath that is told by chance, mm. */
export const RAIN_STEPS_MM = [1, 5, 10] as const;

/** Share of the draws with more than each step of rain between cutting and the window. */
export function rainChances(
  rainMm: readonly number[],
): readonly { readonly aboveMm: number; readonly chance: number }[] {
  if (rainMm.length === 0) throw new RangeError("rainChances: needs at least one draw, got 0");
  return RAIN_STEPS_MM.map((aboveMm) => ({
    aboveMm,
    chance: rainMm.filter((mm) => mm > aboveMm).length / rainMm.length,
  }));
}

/** A reading that counts: its moment, and the middle of what it read, wet basis. */
export interface ReadMiddle {
  readonly atMs: number;
  readonly wb: number;
}

/** The last reading that counts; null where none does. */
export function lastRead(readings: readonly ReadingAnswer[]): ReadMiddle | null {
  let last: ReadMiddle | null = null;
  for (const { used, atUtc, observedWb } of readings) {
    const atMs = Date.parse(atUtc);
    if (used && (last === null || atMs >= last.atMs))
      last = { atMs, wb: (observedWb.low + observedWb.high) / 2 };
  }
  return last;
}

/** How whoever tells a change says its parts: in its clock and language of numbers. */
export interface ChangeWords {
  /** "20 %". */
  readonly target: string;
  /** The moment so many hours after the cut: "Saturday 11:38". */
  readonly when: (hours: number) => string;
  readonly number: (whole: number) => string;
}

/** The last reading that counts: hours from the cut, and whether it was down to the moisture that is told of. */
export interface LastReading {
  readonly hours: number;
  readonly wasDown: boolean;
}

/** "6 h", "24 min": of less than two hours the minutes, so that no two moments that differ are told as one. */
function lengthWords(hours: number, number: ChangeWords["number"]): string {
  return hours < 2 ? `${number(Math.round(60 * hours))} min` : `${number(Math.round(hours))} h`;
}

/**
 * What readings changed, in a sentence; hours from the cut, null = not within the weather.
 *
 * @param last no moment before it is told as due
 */
export function readingSentence(
  beforeHours: number | null,
  afterHours: number | null,
  { target, when, number }: ChangeWords,
  last: LastReading | null = null,
): string {
  if (last !== null && afterHours !== null && afterHours < last.hours)
    return last.wasDown
      ? `${target} was passed by the last reading.`
      : `${target}: the last reading was wetter, though the course had come to it by then. Measure again.`;
  if (afterHours === null) {
    return beforeHours === null
      ? `${target} stays out of reach of this weather.`
      : `${target} is now out of reach of this weather; before the reading it was due ${when(beforeHours)}.`;
  }
  const now = `${target} is now due ${when(afterHours)}`;
  if (beforeHours === null) return `${now}; before the reading it was out of reach.`;
  const change = afterHours - beforeHours;
  if (Math.round(60 * change) === 0) return `${now}, as before the reading.`;
  return `${now}, ${lengthWords(Math.abs(change), number)} ${change < 0 ? "sooner" : "later"} than before the reading.`;
}
