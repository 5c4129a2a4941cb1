import type { ReadingAnswer } from "../drying/answer.ts";
import { DRYING_PARAMETERS, type DryingParameters } from "../drying/coefficients.ts";
import type { ReadingRequest, SwathRequest } from "../drying/request.ts";
import { type DrawnCourse, drawnHours, drawnMoistureAt, parametersAtRate } from "./course-odds.ts";
import { type LearnedRate, learnRate } from "./learned-rate.ts";
import { readingSentence } from "./odds.ts";
import { quantilesOrNever } from "./quantiles.ts";
import { seededRandom, streamSeed } from "./random.ts";
import {
  COLLAPSED_SHARE,
  effectiveSampleSize,
  equalWeights,
  QUESTIONED_SIGMAS,
  resample,
  reweight,
} from "./reading.ts";
import { READING_METHODS, readingSdWb } from "./reading-methods.ts";
import type { Draw } from "./sample.ts";

export interface Bent {
  /** `count` draws, equally weighted: drawn again by their weights. */
  readonly drawn: readonly DrawnCourse[];
  readonly effects: readonly ReadingAnswer[];
  /** Of all that was used, before it was drawn again. */
  readonly effectiveSize: number;
  readonly collapsed: boolean;
  /** Null where no reading was used. */
  readonly learned: LearnedRate | null;
  /** The course in the middle of the weighted draws. */
  readonly centre: { readonly swath: SwathRequest; readonly p: DryingParameters };
}

const RESAMPLE_STREAM = 101;

function percent(wb: number): string {
  return `${Math.round(1000 * wb) / 10} %`;
}

function readingWords({ moistureWb, range }: ReadingRequest): string {
  return range === undefined
    ? percent(moistureWb ?? Number.NaN)
    : `${percent(range[0])} to ${percent(range[1])}`;
}

/** What was read with its own error: a value and a standard deviation either way, or the ends of an interval. */
function observedOf({ moistureWb, range, method }: ReadingRequest) {
  if (range !== undefined) return { low: range[0], high: range[1] };
  const wb = moistureWb ?? Number.NaN;
  const sdWb = readingSdWb(method);
  return { low: Math.max(0, wb - sdWb), high: Math.min(1, wb + sdWb) };
}

function effectText(reading: ReadingRequest, questioned: boolean, sigmas: number, p10: number, p90: number) {
  const what = `${READING_METHODS[reading.method].label}: ${readingWords(reading)}; expected ${percent(p10)} to ${percent(p90)}.`;
  if (!questioned) return what;
  return (
    `${what} It lies ${sigmas.toFixed(1)} standard deviations from the nearest of all courses (over ${QUESTIONED_SIGMAS}): ` +
    "it was not used. Was it this field, this cut and this hour? Measure again, or correct the swath's data."
  );
}

/** Quantiles of weighted values by drawing them again; the same stream each time. */
function weightedSpread(values: readonly number[], weights: readonly number[], seed: number) {
  const again = resample(weights, seededRandom(streamSeed(seed, RESAMPLE_STREAM))).map(
    (i) => values[i] as number,
  );
  const { p10, p50, p90 } = quantilesOrNever(again);
  return { p10: p10 as number, p50: p50 as number, p90: p90 as number };
}

/**
 * Bends the draws of one cut to its readings, in the order of time: each reweights all draws by how likely it is where that
 * draw is true; the draws that then hold the weight are drawn again, equally weighted. A reading that lies over five
 * standard deviations from every draw is questioned and not used.
 */
export function bendToReadings(
  drawn: readonly DrawnCourse[],
  swath: SwathRequest,
  readings: readonly ReadingRequest[],
  seed: number,
  count = drawn.length,
): Bent {
  const inOrder = readings.toSorted((a, b) => Date.parse(a.atUtc) - Date.parse(b.atUtc));
  let weights = equalWeights(drawn.length);
  let lastUsedMs: number | null = null;
  const effects = inOrder.map((reading): ReadingAnswer => {
    const atMs = Date.parse(reading.atUtc);
    const moistures = drawn.map((one) => drawnMoistureAt(one, atMs));
    const expectedWb = weightedSpread(moistures, weights, seed);
    const next = reweight(weights, moistures, reading);
    weights = next.weights.slice();
    if (!next.questioned) lastUsedMs = atMs;
    return {
      atUtc: reading.atUtc,
      method: reading.method,
      observedWb: observedOf(reading),
      used: !next.questioned,
      sdWb: readingSdWb(reading.method),
      expectedWb,
      nearestSigmas: next.nearestSigmas,
      effectiveSize: next.effectiveSize,
      text: effectText(reading, next.questioned, next.nearestSigmas, expectedWb.p10, expectedWb.p90),
    };
  });
  const effectiveSize = effectiveSampleSize(weights);
  const used = lastUsedMs !== null;
  const again = resample(weights, seededRandom(streamSeed(seed, RESAMPLE_STREAM)), count);
  const mean = (of: (draw: Draw) => number) =>
    drawn.reduce((sum, { draw }, i) => sum + (weights[i] as number) * of(draw), 0);
  return {
    drawn: used ? again.map((i) => drawn[i] as DrawnCourse) : drawn,
    effects,
    effectiveSize,
    collapsed: effectiveSize < COLLAPSED_SHARE * drawn.length,
    learned:
      lastUsedMs === null
        ? null
        : learnRate(
            drawn.map(({ draw }) => draw.rateFactor),
            weights,
            lastUsedMs,
          ),
    centre: used
      ? {
          swath: {
            ...swath,
            initialMoistureWb: mean((draw) => draw.initialMoistureWb),
            dryMatterTHa: mean((draw) => draw.dryMatterTHa),
          },
          p: parametersAtRate(Math.exp(mean((draw) => Math.log(draw.rateFactor)))),
        }
      : { swath, p: DRYING_PARAMETERS },
  };
}

/** What the readings changed for one target, in a sentence: medians before and after. */
export function changeSentence(
  before: readonly DrawnCourse[],
  after: readonly DrawnCourse[],
  targetWb: number,
): {
  readonly targetWb: number;
  readonly beforeHours: number | null;
  readonly afterHours: number | null;
  readonly text: string;
} {
  const median = (drawn: readonly DrawnCourse[]) =>
    quantilesOrNever(drawn.map((one) => drawnHours(one, targetWb))).p50;
  const [beforeHours, afterHours] = [median(before), median(after)];
  return {
    targetWb,
    beforeHours,
    afterHours,
    text: `${readingSentence(beforeHours, afterHours, targetWb)}.`,
  };
}
