import { coefficient } from "../coefficient.ts";
import type { Uncertainty } from "./uncertainty.ts";

/** What the readings of a field and crop taught about its rate; kept in the book, tomorrow's prior. */
export interface LearnedRate {
  /** Mean and spread of ln(rate factor) under the weights. */
  readonly lnMean: number;
  readonly lnSd: number;
  readonly atUtcMs: number;
}

export const FORGETTING = {
  halfLifeDays: coefficient(
    21,
    "days",
    "assumed",
    "half of what was learned counts three weeks on: the same cutting is remembered, the next one partly",
    [7, 60],
  ),
  leastLnSd: coefficient(
    0.05,
    "ln",
    "assumed",
    "no reading makes a rate surer than this: one draw that holds all the weight is not knowledge",
    [0.02, 0.1],
  ),
} as const;

const DAY_MS = 86_400_000;

/** The rate factor as the weighted draws now hold it, no surer than `leastLnSd`. Weights add to 1. */
export function learnRate(
  rateFactors: readonly number[],
  weights: readonly number[],
  atUtcMs: number,
  leastLnSd: number = FORGETTING.leastLnSd.value,
): LearnedRate {
  if (rateFactors.length !== weights.length || weights.length === 0) {
    throw new RangeError(
      `learnRate: needs one weight a factor and at least one, got ${weights.length} for ${rateFactors.length}`,
    );
  }
  const lns = rateFactors.map(Math.log);
  const lnMean = lns.reduce((sum, ln, i) => sum + (weights[i] as number) * ln, 0);
  const variance = lns.reduce((sum, ln, i) => sum + (weights[i] as number) * (ln - lnMean) ** 2, 0);
  return { lnMean, lnSd: Math.max(leastLnSd, Math.sqrt(variance)), atUtcMs };
}

/**
 * The uncertainty with what was learned, forgotten with time: the centre goes back to the assumed one and the spread
 * back to the assumed spread, by k = 0.5^(days / half-life); variance k² learned + (1 - k²) assumed.
 */
export function withLearnedRate(prior: Uncertainty, learned: LearnedRate, nowUtcMs: number): Uncertainty {
  const days = Math.max(0, (nowUtcMs - learned.atUtcMs) / DAY_MS);
  const kept = 0.5 ** (days / FORGETTING.halfLifeDays.value);
  return {
    ...prior,
    rateLnMean: prior.rateLnMean + kept * (learned.lnMean - prior.rateLnMean),
    rateLnSd: Math.sqrt(kept ** 2 * learned.lnSd ** 2 + (1 - kept ** 2) * prior.rateLnSd ** 2),
  };
}
