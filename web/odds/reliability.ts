import { binomialDistribution } from "simple-statistics";
import type { ReliabilityBin } from "../../model/odds/brier.ts";
import { inTen } from "../../model/odds/in-ten.ts";

/** A dot of the reliability picture: chance as told across, how often it came up, both 0-1. */
export interface ReliabilityDot {
  readonly told: number;
  readonly came: number;
  readonly count: number;
  /** Radius, px: the area goes with how many there were. */
  readonly radiusPx: number;
  /** Between these shares it would come in 9 of 10 such records if the told chance were right. */
  readonly right: readonly [number, number];
}

const LEAST_PX = 4;
export const MOST_PX = 11;
const TAIL = 0.05;

/**
 * Consistency bar: 5 and 95 % points of how often a thing of this chance comes in so many times, as shares. Binomial, as if
 * each stood alone: several of one day lie further off than that.
 *
 * @param chance as told, 0-1
 * @param count from 1
 */
export function consistencyBar(chance: number, count: number): readonly [number, number] {
  const cells = binomialDistribution(count, Math.min(1, Math.max(0, chance))) ?? [];
  let sum = 0;
  let low: number | null = null;
  for (const [times, cell] of cells.entries()) {
    sum += cell;
    if (low === null && sum >= TAIL) low = times;
    if (sum >= 1 - TAIL) return [(low ?? times) / count, times / count];
  }
  return [0, 1];
}

/** The dots of the bins that hold anything; the fullest is the largest. */
export function reliabilityDots(bins: readonly ReliabilityBin[]): readonly ReliabilityDot[] {
  const most = Math.max(1, ...bins.map(({ count }) => count));
  return bins.flatMap(({ meanChance, observedShare, count }) =>
    meanChance === null || observedShare === null
      ? []
      : [
          {
            told: meanChance,
            came: observedShare,
            count,
            radiusPx: Math.max(LEAST_PX, MOST_PX * Math.sqrt(count / most)),
            right: consistencyBar(meanChance, count),
          },
        ],
  );
}

/** How often it came in all, whatever was told; null without any. */
export function baseShare(dots: readonly ReliabilityDot[]): number | null {
  const count = dots.reduce((sum, one) => sum + one.count, 0);
  return count === 0 ? null : dots.reduce((sum, one) => sum + one.came * one.count, 0) / count;
}

/** "6 of 9 times". */
export function timesText({ came, count }: ReliabilityDot): string {
  return `${Math.round(came * count)} of ${count} ${count === 1 ? "time" : "times"}`;
}

/** What the picture says: "It came as often as was told, as far as 21 chances can tell.", or where it did not. */
export function reliabilitySentence(dots: readonly ReliabilityDot[]): string {
  const off = dots.filter(({ came, right: [low, high] }) => came < low || came > high);
  if (off.length === 0) {
    const count = dots.reduce((sum, one) => sum + one.count, 0);
    return `It came as often as was told, as far as ${count} ${count === 1 ? "chance" : "chances"} can tell.`;
  }
  return off
    .map((dot) => {
      const side = dot.came > dot.told ? "more" : "less";
      return `Told ${inTen(dot.told)}, it came ${timesText(dot)}: ${side} often than told.`;
    })
    .join(" ");
}
