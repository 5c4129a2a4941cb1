import { quantileOfSorted } from "./quantiles.ts";
import { seededRandom } from "./random.ts";

/** Fewer days than this say nothing yet. */
export const LEAST_DAYS = 20;
/** Weather holds on for some days: days are drawn in runs of this many. Assumed. */
export const BLOCK_DAYS = 3;
/** How often days are redrawn. */
export const REPEATS = 1000;

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

/** As many days as there are, redrawn in runs that go round; places in their order. */
export function redrawnDays(count: number, random: () => number): readonly number[] {
  const places: number[] = [];
  while (places.length < count) {
    const from = Math.floor(random() * count);
    for (let k = 0; k < BLOCK_DAYS && places.length < count; k++) places.push((from + k) % count);
  }
  return places;
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
    for (const i of redrawnDays(count, random)) {
      const day = days[i] as Day;
      sum += day.sum;
      n += day.count;
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

/** Standard normal deviate that 5 % lie above. */
const Z95 = 1.6449;

/**
 * Interval of a share in so many trials, 5 and 95 %: it has a width where all or none came. Wilson 1927, Probable inference,
 * the law of succession, and statistical inference, J. Am. Stat. Assoc. 22:209 (from memory).
 */
export function wilsonInterval(share: number, trials: number): readonly [number, number] {
  if (!(share >= 0 && share <= 1 && trials > 0))
    throw new RangeError(
      `wilsonInterval: share must be in [0, 1] and trials above 0, got ${share}, ${trials}`,
    );
  const z2 = Z95 ** 2 / trials;
  const centre = (share + z2 / 2) / (1 + z2);
  const half = Math.sqrt(z2 * share * (1 - share) + z2 ** 2 / 4) / (1 + z2);
  return [Math.max(0, centre - half), Math.min(1, centre + half)];
}

/**
 * A share (scores of 0 and 1) with its confidence: the wider of redrawn days and Wilson's interval with each day as one
 * trial. Redrawn alone, equal scores would have no width.
 */
export function shareWithConfidence(scores: readonly DayScore[], seed: number): ScoreWithConfidence {
  const drawn = scoreWithConfidence(scores, seed);
  if (!drawn.enough) return drawn;
  const [low, high] = wilsonInterval(drawn.mean, drawn.days);
  return { ...drawn, p5: Math.min(drawn.p5, low), p95: Math.max(drawn.p95, high) };
}
