import type { ReliabilityBin } from "../../model/odds/brier.ts";

/** A dot of the reliability picture: chance as told across, how often it came up, both 0-1. */
export interface ReliabilityDot {
  readonly told: number;
  readonly came: number;
  readonly count: number;
  /** Radius, px: the area goes with how many there were. */
  readonly radiusPx: number;
}

const LEAST_PX = 4;
const MOST_PX = 11;

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
          },
        ],
  );
}

/** "Where 7 in 10 was told it came 6 in 10 times (12)", for who does not see the picture. */
export function reliabilitySentence(dots: readonly ReliabilityDot[]): string {
  const inTen = (share: number) => `${Math.round(10 * share)} in 10`;
  return dots
    .map(({ told, came, count }) => `Told ${inTen(told)}, came ${inTen(came)} (${count} times).`)
    .join(" ");
}
