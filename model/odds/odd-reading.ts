import { coefficient } from "../coefficient.ts";
import type { ReadingAnswer } from "../drying/answer.ts";
import { normalShareBelow } from "./normal.ts";
import { equalWeights, type Measured, nearestSigmasOf, temperedWeights } from "./reading.ts";
import { likelihoodOf } from "./repeats.ts";

/** Which readings count, and which are asked about first: one that hardly any draw bears out is as likely a slip. */

export const ODD_READING = {
  chance: coefficient(
    0.005,
    "(share of readings)",
    "assumed",
    "a reading further off than 199 in 200 of the field as assumed is asked about first: of honest ones fewer than 1 in 100 (npm run study); at 0.02 and 2 deviations it was 2 in 100, and they lost what they would have taught",
    [0.002, 0.05],
  ),
  sigmas: coefficient(
    3,
    "(standard deviations of the reading)",
    "assumed",
    "one that no draw comes so near to is asked about as well: where the draws lie close together",
    [1, 5],
  ),
  apartWb: coefficient(
    0.03,
    "(wet-basis fraction)",
    "assumed",
    "as much as places of one field differ: after so much drying a second reading is of another sample, and not the slip of the first again",
    [0.02, 0.06],
  ),
} as const;

/** True where two readings do not share a slip: by different methods, or with enough drying between them. */
export function areIndependent(a: Measured, b: Measured): boolean {
  return (
    a.reading.method !== b.reading.method || Math.abs(a.middleWb - b.middleWb) >= ODD_READING.apartWb.value
  );
}

/**
 * Chance that the field, as the weighted draws have it, gives a reading as far off on either side; of an interval its nearer
 * end counts. `side` 1 = it lies on the wet side, -1 = on the dry side.
 */
export function asFarOff(weights: readonly number[], { reading, sdWb, moistures }: Measured) {
  const { moistureWb = Number.NaN, range: [low, high] = [moistureWb, moistureWb] } = reading;
  let [drier, wetter] = [0, 0];
  for (const [i, wb] of moistures.entries()) {
    drier += (weights[i] as number) * normalShareBelow((high - wb) / sdWb);
    wetter += (weights[i] as number) * normalShareBelow((wb - low) / sdWb);
  }
  const side: 1 | -1 = drier < wetter ? -1 : 1;
  return { chance: Math.min(1, 2 * Math.min(drier, wetter)), side };
}

function isOdd(weights: readonly number[], one: Measured): boolean {
  const { moistures, reading, sdWb } = one;
  if (asFarOff(weights, one).chance < ODD_READING.chance.value) return true;
  return !(nearestSigmasOf(weights, moistures, reading, sdWb) <= ODD_READING.sigmas.value);
}

/** What is made of one reading before the course bends to it. */
export type Verdict = ReadingAnswer["verdict"];

/**
 * Which readings count, in the order of time. One that is odd by what those before it left waits until it is confirmed, or
 * borne out: by a second odd one on its side that is independent of it, or by independent readings that make it likely.
 */
export function verdictsOf(measured: readonly Measured[]): readonly Verdict[] {
  const borneOut = new Set<number>();
  const draws = measured[0]?.moistures.length ?? 0;
  for (;;) {
    let weights = equalWeights(draws);
    const counted: number[] = [];
    const waiting: { readonly at: number; readonly side: number }[] = [];
    const verdicts = measured.map((one, at): Verdict => {
      const odd = isOdd(weights, one);
      const counts = !odd || borneOut.has(at) || one.reading.confirmed === true;
      const { side } = asFarOff(weights, one);
      if (counts) {
        counted.push(at);
        const so = counted.map((each) => measured[each] as Measured);
        ({ weights } = temperedWeights(likelihoodOf(so, draws)));
        return borneOut.has(at) ? "borne-out" : odd ? "confirmed" : "fits";
      }
      const alike = waiting.some((other) => other.side === side);
      waiting.push({ at, side });
      return alike ? "same-again" : "questioned";
    });
    const independent = (a: number, b: number) =>
      areIndependent(measured[a] as Measured, measured[b] as Measured);
    const found = waiting.filter(({ at, side }) => {
      if (waiting.some((other) => other.side === side && independent(at, other.at))) return true;
      return counted.some((other) => independent(at, other)) && !isOdd(weights, measured[at] as Measured);
    });
    if (found.length === 0) return verdicts;
    for (const { at } of found) borneOut.add(at);
  }
}

const POINTS = Math.round(100 * ODD_READING.apartWb.value);

/** The rule of what bears a reading out, as it is told. */
export const BEARS_OUT = `by another method, or once the crop has dried ${POINTS} points further`;
