import { inTen } from "../../model/odds/in-ten.ts";
import type { RecordBin } from "../../model/odds/reliability.ts";

/** A dot of the reliability picture: chance as told across, how often it came up, both 0-1. */
export interface ReliabilityDot {
  readonly told: number;
  readonly came: number;
  readonly count: number;
  /** On how many days they were. */
  readonly days: number;
  /** Radius, px: the area goes with how many there were. */
  readonly radiusPx: number;
  /** Between these shares it would come in 9 of 10 such records if the told chance were right. */
  readonly right: readonly [number, number];
}

const LEAST_PX = 4;
export const MOST_PX = 11;
/** The dots of the bins that hold anything; the fullest is the largest. */
export function reliabilityDots(bins: readonly RecordBin[]): readonly ReliabilityDot[] {
  const most = Math.max(1, ...bins.map(({ count }) => count));
  return bins.flatMap(({ meanChance, observedShare, count, days, right }) =>
    meanChance === null || observedShare === null || right === null
      ? []
      : [
          {
            told: meanChance,
            came: observedShare,
            count,
            days,
            radiusPx: Math.max(LEAST_PX, MOST_PX * Math.sqrt(count / most)),
            right,
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

/** A dot of fewer days is drawn and not judged. Assumed. */
const LEAST_JUDGED_DAYS = 5;

/**
 * What the picture says: "It came as often as was told, as far as 21 chances on 20 days can tell.", or where it did not.
 *
 * @param days of all the dots together
 */
export function reliabilitySentence(dots: readonly ReliabilityDot[], days: number): string {
  const off = dots.filter(
    ({ came, right: [low, high], days }) => days >= LEAST_JUDGED_DAYS && (came < low || came > high),
  );
  if (off.length === 0) {
    const count = dots.reduce((sum, one) => sum + one.count, 0);
    return `It came as often as was told, as far as ${count} ${count === 1 ? "chance" : "chances"} on ${days} ${days === 1 ? "day" : "days"} can tell.`;
  }
  return off
    .map((dot) => {
      const side = dot.came > dot.told ? "more" : "less";
      return `Told ${inTen(dot.told)}, it came ${timesText(dot)}: ${side} often than told.`;
    })
    .join(" ");
}
