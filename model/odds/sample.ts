import { SOIL_CLASSES, type SoilClass } from "../drying/keys.ts";
import { SWATH_LIMITS } from "../drying/limits.ts";
import type { SwathRequest } from "../drying/request.ts";
import { normalAtShare } from "./normal.ts";
import { seededRandom, shuffledOrder, streamSeed } from "./random.ts";
import type { Uncertainty } from "./uncertainty.ts";

/** One draw of what the model may be wrong about. */
export interface Draw {
  /** Multiplies the conductance of fresh tissue. */
  readonly rateFactor: number;
  readonly initialMoistureWb: number;
  readonly dryMatterTHa: number;
  readonly soil: SoilClass;
}

const STREAMS = { rate: 0, moisture: 1, yield: 2, soil: 3 } as const;

/**
 * One number from each of `count` equal strata of (0, 1), in random order: each margin is even, whatever the count.
 * McKay, Beckman & Conover 1979, A comparison of three methods, Technometrics 21:239-245: from memory.
 */
export function stratifiedShares(count: number, random: () => number): number[] {
  if (!(Number.isInteger(count) && count >= 1)) {
    throw new RangeError(`stratifiedShares: count must be a whole number from 1, got ${count}`);
  }
  const order = shuffledOrder(count, random);
  // A share of exactly 0 has no normal value.
  return order.map((stratum) => (stratum + Math.max(random(), 1e-9)) / count);
}

function held(value: number, { min, max }: { readonly min: number; readonly max: number }): number {
  return Math.min(max, Math.max(min, value));
}

/** Drier and wetter classes by their share; what would lie past the ends stays at the end. */
function soilAt(named: SoilClass, share: number, otherShare: number): SoilClass {
  const step = share < otherShare ? -1 : share >= 1 - otherShare ? 1 : 0;
  const at = held(SOIL_CLASSES.indexOf(named) + step, { min: 0, max: SOIL_CLASSES.length - 1 });
  return SOIL_CLASSES[at] ?? named;
}

/** The sample before it is given a swath: normal values and shares by draw. One set serves all cuts of a board. */
export interface SampleScores {
  readonly count: number;
  readonly rateZ: readonly number[];
  readonly moistureZ: readonly number[];
  readonly yieldZ: readonly number[];
  readonly soilShare: readonly number[];
}

/** A stratified (Latin hypercube) sample of `count` draws. The same seed gives the same everywhere. */
export function sampleScores(count: number, seed: number): SampleScores {
  const shares = (stream: number) => stratifiedShares(count, seededRandom(streamSeed(seed, stream)));
  return {
    count,
    rateZ: shares(STREAMS.rate).map(normalAtShare),
    moistureZ: shares(STREAMS.moisture).map(normalAtShare),
    yieldZ: shares(STREAMS.yield).map(normalAtShare),
    soilShare: shares(STREAMS.soil),
  };
}

/** Draw i of the sample around a swath. */
export function drawOf(
  { rateZ, moistureZ, yieldZ, soilShare }: SampleScores,
  swath: Pick<SwathRequest, "initialMoistureWb" | "dryMatterTHa" | "soil">,
  uncertainty: Uncertainty,
  i: number,
): Draw {
  return {
    rateFactor: Math.exp(uncertainty.rateLnMean + uncertainty.rateLnSd * (rateZ[i] as number)),
    initialMoistureWb: held(
      swath.initialMoistureWb + uncertainty.initialMoistureSdWb * (moistureZ[i] as number),
      SWATH_LIMITS.initialMoistureWb,
    ),
    // The mean yield, not the median, is the one given.
    dryMatterTHa: Math.min(
      SWATH_LIMITS.dryMatterTHa.max,
      swath.dryMatterTHa *
        Math.exp(uncertainty.yieldLnSd * (yieldZ[i] as number) - uncertainty.yieldLnSd ** 2 / 2),
    ),
    soil: soilAt(swath.soil, soilShare[i] as number, uncertainty.soilOtherShare),
  };
}

/** The sample around a swath. Draw i goes with member i. */
export function drawSample(
  swath: Pick<SwathRequest, "initialMoistureWb" | "dryMatterTHa" | "soil">,
  uncertainty: Uncertainty,
  count: number,
  seed: number,
): readonly Draw[] {
  const scores = sampleScores(count, seed);
  return scores.rateZ.map((_, i) => drawOf(scores, swath, uncertainty, i));
}

/** The swath of one draw; the rate factor goes to the model's parameters. */
export function swathOfDraw(swath: SwathRequest, draw: Draw): SwathRequest {
  const { initialMoistureWb, dryMatterTHa, soil } = draw;
  return { ...swath, initialMoistureWb, dryMatterTHa, soil };
}
