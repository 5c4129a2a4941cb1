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

/**
 * A stratified (Latin hypercube) sample of the model's uncertainty around a swath. Draw i goes with member i.
 * The same seed gives the same draws everywhere.
 */
export function drawSample(
  swath: Pick<SwathRequest, "initialMoistureWb" | "dryMatterTHa" | "soil">,
  uncertainty: Uncertainty,
  count: number,
  seed: number,
): readonly Draw[] {
  const shares = (stream: number) => stratifiedShares(count, seededRandom(streamSeed(seed, stream)));
  const rate = shares(STREAMS.rate);
  const moisture = shares(STREAMS.moisture);
  const yields = shares(STREAMS.yield);
  const soils = shares(STREAMS.soil);
  const z = (of: readonly number[], i: number) => normalAtShare(of[i] as number);
  return rate.map((_, i) => ({
    rateFactor: Math.exp(uncertainty.rateLnMean + uncertainty.rateLnSd * z(rate, i)),
    initialMoistureWb: held(
      swath.initialMoistureWb + uncertainty.initialMoistureSdWb * z(moisture, i),
      SWATH_LIMITS.initialMoistureWb,
    ),
    // The mean yield, not the median, is the one given.
    dryMatterTHa: Math.min(
      SWATH_LIMITS.dryMatterTHa.max,
      swath.dryMatterTHa * Math.exp(uncertainty.yieldLnSd * z(yields, i) - uncertainty.yieldLnSd ** 2 / 2),
    ),
    soil: soilAt(swath.soil, soils[i] as number, uncertainty.soilOtherShare),
  }));
}

/** The swath of one draw; the rate factor goes to the model's parameters. */
export function swathOfDraw(swath: SwathRequest, draw: Draw): SwathRequest {
  const { initialMoistureWb, dryMatterTHa, soil } = draw;
  return { ...swath, initialMoistureWb, dryMatterTHa, soil };
}
