import { quantileOfSorted } from "./quantiles.ts";
import { seededRandom } from "./random.ts";

/** Fewer days than this say nothing yet. */
export const LEAST_DAYS = 20;
/** Weather holds on for some days: days are drawn in runs of this many. Assumed. */
export const BLOCK_DAYS = 3;
const REPEATS = 1000;

/** One score of one day of the farm's calendar, such as "2026-07-02". */
export interface DayScore {
  readonly day: string;
  readonly score: number;
}

export type ScoreWithConfidence =
  | { readonly enough: false; readonly days: number; readonly scores: number; readonly text: string }
  | {
      readonly enough: true;
      readonly days: number;
      readonly scores: number;
      readonly mean: number;
      /** 5 and 95 % of the mean over redrawn days. */
      readonly p5: number;
      readonly p95: number;
    };

interface Day {
  sum: number;
  count: number;
}

function byDay(scores: readonly DayScore[]): readonly Day[] {
  const days = new Map<string, Day>();
  for (const { day, score } of scores) {
    const kept = days.get(day) ?? { sum: 0, count: 0 };
    days.set(day, { sum: kept.sum + score, count: kept.count + 1 });
  }
  return [...days.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, day]) => day);
}

/**
 * Mean score with its confidence, by days and not by hours or readings: those of one day err together. Days are redrawn
 * in runs (moving circular blocks), seeded. Kuensch 1989, Ann. Stat. 17:1217; Politis & Romano 1992: from memory.
 */
export function scoreWithConfidence(scores: readonly DayScore[], seed: number): ScoreWithConfidence {
  const bad = scores.find(({ score }) => !Number.isFinite(score));
  if (bad)
    throw new RangeError(`scoreWithConfidence: score must be a number, got ${bad.score} on ${bad.day}`);
  const days = byDay(scores);
  const count = days.length;
  if (count < LEAST_DAYS) {
    const text = `${count} ${count === 1 ? "day" : "days"}: too few to say (${LEAST_DAYS} needed)`;
    return { enough: false, days: count, scores: scores.length, text };
  }
  const random = seededRandom(seed);
  const means = Float64Array.from({ length: REPEATS }, () => {
    let sum = 0;
    let n = 0;
    for (let taken = 0; taken < count; ) {
      const from = Math.floor(random() * count);
      for (let k = 0; k < BLOCK_DAYS && taken < count; k++, taken++) {
        const day = days[(from + k) % count] as Day;
        sum += day.sum;
        n += day.count;
      }
    }
    return sum / n;
  }).sort();
  return {
    enough: true,
    days: count,
    scores: scores.length,
    mean: scores.reduce((sum, { score }) => sum + score, 0) / scores.length,
    p5: quantileOfSorted(means, 0.05),
    p95: quantileOfSorted(means, 0.95),
  };
}
