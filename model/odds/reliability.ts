import { type ChanceOutcome, type ReliabilityBin, reliabilityBins } from "./brier.ts";
import { REPEATS, redrawnDays } from "./confidence.ts";
import { quantileOfSorted } from "./quantiles.ts";
import { seededRandom } from "./random.ts";

/** A bin of a record, with how often it may come if its chances are right. */
export interface RecordBin extends ReliabilityBin {
  /** Days of the farm's calendar that it holds chances of. */
  readonly days: number;
  /** 5 and 95 % of the share that comes where the told chances are right; null in an empty bin. */
  readonly right: readonly [number, number] | null;
}

const TAIL = 0.05;

/**
 * Bins with consistency bars: days are redrawn in runs as for every score, and on each day the chances come or fail by
 * one number, since those of one day err together; as if wholly so, assumed: of many places the bars are too wide. After
 * Broecker & Smith 2007, Increasing the reliability of reliability diagrams, Weather Forecast. 22:651 (from memory), who
 * redraw single forecasts.
 */
export function binsByDays(
  outcomes: readonly (ChanceOutcome & { readonly day: string })[],
  seed: number,
): readonly RecordBin[] {
  const bins = reliabilityBins(outcomes);
  const last = bins.length - 1;
  const holds = ({ from, to }: ReliabilityBin, k: number, chance: number) =>
    chance >= from && (chance < to || k === last);
  const byDay = new Map<string, number[][]>();
  for (const { day, chance } of outcomes) {
    const own = byDay.get(day) ?? bins.map(() => []);
    own[bins.findIndex((bin, k) => holds(bin, k, chance))]?.push(chance);
    byDay.set(day, own);
  }
  const chances = [...byDay.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, own]) => own);
  const random = seededRandom(seed);
  const shares: number[][] = bins.map(() => []);
  for (let r = 0; r < REPEATS; r++) {
    const count = bins.map(() => 0);
    const came = bins.map(() => 0);
    for (const i of redrawnDays(chances.length, random)) {
      const by = random();
      for (const [k, told] of (chances[i] as number[][]).entries()) {
        count[k] = (count[k] as number) + told.length;
        came[k] = (came[k] as number) + told.filter((chance) => by < chance).length;
      }
    }
    for (const [k, n] of count.entries()) if (n > 0) shares[k]?.push((came[k] as number) / n);
  }
  return bins.map((bin, k) => {
    const sorted = Float64Array.from(shares[k] as number[]).sort();
    return {
      ...bin,
      days: chances.filter((of) => (of[k]?.length ?? 0) > 0).length,
      right:
        sorted.length === 0
          ? null
          : ([quantileOfSorted(sorted, TAIL), quantileOfSorted(sorted, 1 - TAIL)] as const),
    };
  });
}
