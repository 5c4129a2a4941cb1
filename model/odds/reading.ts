import type { ReadingRequest } from "../drying/request.ts";
import { normalShareBelow } from "./normal.ts";

/** A reading with what the draws say of its hour. */
export interface Measured {
  readonly reading: ReadingRequest;
  readonly sdWb: number;
  readonly moistures: readonly number[];
  /** The draws' middle then, before any reading. */
  readonly middleWb: number;
}

/** Under this share of the draws' number the weights count as collapsed: half, common practice of particle filters. */
export const COLLAPSED_SHARE = 0.5;

/** Distance of a moisture from the reading, in its standard deviations; 0 inside an interval. */
function sigmasAway(moistureWb: number, reading: ReadingRequest, sdWb: number): number {
  const [low, high] = reading.range ?? [reading.moistureWb, reading.moistureWb];
  const away = Math.max((low ?? Number.NaN) - moistureWb, moistureWb - (high ?? Number.NaN), 0);
  return away / sdWb;
}

/** ln of how likely the reading is if the field's moisture is `moistureWb`, up to a constant. */
export function logLikelihood(moistureWb: number, reading: ReadingRequest, sdWb: number): number {
  if (reading.range !== undefined) {
    const [low, high] = reading.range;
    // The far tail on the upper side would round to 1 - 1: mirrored, it keeps its digits.
    const [from, to] =
      moistureWb > high ? [low - moistureWb, high - moistureWb] : [moistureWb - high, moistureWb - low];
    const share = normalShareBelow(to / sdWb) - normalShareBelow(from / sdWb);
    const z = sigmasAway(moistureWb, reading, sdWb);
    return share > 1e-12 ? Math.log(share) : -0.5 * z * z + Math.log(0.5);
  }
  const z = sigmasAway(moistureWb, reading, sdWb);
  return -0.5 * z * z;
}

/** Kong's effective sample size, 1 / sum w², of weights that add to 1: how many equal draws they are worth. */
export function effectiveSampleSize(weights: readonly number[]): number {
  return 1 / weights.reduce((sum, w) => sum + w * w, 0);
}

export function equalWeights(count: number): readonly number[] {
  return Array.from({ length: count }, () => 1 / count);
}

/** Share of the weight that is passed over, the lightest draws first, where a reading is held against all of them. */
const HARDLY_WEIGHED = 0.001;

/**
 * Standard deviations between a reading and the nearest draw of those that hold the weight: a draw that earlier readings
 * left as good as nothing does not bear a later one out.
 */
export function nearestSigmasOf(
  weights: readonly number[],
  moistureWb: readonly number[],
  reading: ReadingRequest,
  sdWb: number,
): number {
  const heaviest = weights.map((_, i) => i).sort((a, b) => (weights[b] as number) - (weights[a] as number));
  let nearest = Number.POSITIVE_INFINITY;
  let held = 0;
  for (const i of heaviest) {
    if (held >= 1 - HARDLY_WEIGHED && (weights[i] as number) < HARDLY_WEIGHED / weights.length) break;
    nearest = Math.min(nearest, sigmasAway(moistureWb[i] as number, reading, sdWb));
    held += weights[i] as number;
  }
  return nearest;
}

/** Fewer draws than this are no knowledge: readings then count in part, so that as many still share the weight. Assumed. */
export const LEAST_EFFECTIVE = 20;
/** Of a small sample a share of its number. Assumed. */
const LEAST_EFFECTIVE_SHARE = 0.25;
/** Halvings of the share at which readings count: to better than 1e-6. */
const HALVINGS = 20;

/** Weights that add to 1 from their logarithms. The greatest is taken out first: the rest may underflow, never all of them. */
function fromLogs(logs: readonly number[]): readonly number[] {
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const raw = logs.map((ln) => Math.exp(ln - most));
  const sum = raw.reduce((a, b) => a + b, 0);
  return raw.map((w) => w / sum);
}

/**
 * Weights of equal draws by how likely all readings are, ln. Where one or two draws would hold all the weight the readings
 * count by a share of their ln likelihood, the greatest at which `LEAST_EFFECTIVE` draws still share it: the bands then stay
 * wider than the readings alone would have them (tempering, common practice of particle filters, no source).
 */
export function temperedWeights(logLikelihoods: readonly number[]): {
  readonly weights: readonly number[];
  /** 1 = the readings count whole. */
  readonly countedShare: number;
} {
  const least = Math.min(LEAST_EFFECTIVE, LEAST_EFFECTIVE_SHARE * logLikelihoods.length);
  const at = (share: number) => fromLogs(logLikelihoods.map((ln) => share * ln));
  const whole = at(1);
  if (effectiveSampleSize(whole) >= least) return { weights: whole, countedShare: 1 };
  let [enough, tooMuch] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const half = (enough + tooMuch) / 2;
    if (effectiveSampleSize(at(half)) >= least) enough = half;
    else tooMuch = half;
  }
  return { weights: at(enough), countedShare: enough };
}

/**
 * Equally weighted draws in place of weighted ones, as indices: systematic resampling, one random number, so that each
 * draw comes floor(n w) or ceil(n w) times. Kitagawa 1996, J. Comput. Graph. Stat. 5:1-25: from memory.
 */
export function resample(weights: readonly number[], random: () => number, count = weights.length): number[] {
  const start = random();
  const picked: number[] = [];
  let at = 0;
  let sum = weights[0] ?? 0;
  for (let k = 0; k < count; k++) {
    const point = (k + start) / count;
    while (point >= sum && at < weights.length - 1) sum += weights[++at] as number;
    picked.push(at);
  }
  return picked;
}
