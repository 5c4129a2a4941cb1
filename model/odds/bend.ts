import type { ReadingAnswer, ReadingsAnswer, TargetAnswer } from "../drying/answer.ts";
import { DRYING_PARAMETERS, type DryingParameters } from "../drying/coefficients.ts";
import type { ReadingRequest, SwathRequest } from "../drying/request.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import { type DrawnCourse, type DrawnMoisture, drawnMoistureAt, parametersAtRate } from "./course-odds.ts";
import { type LearnedRate, learnRate } from "./learned-rate.ts";
import { heaviestSoil, type NearestDraw, nearestDraw } from "./nearest-draw.ts";
import { areIndependent, asFarOff, BEARS_OUT, ODD_READING, type Verdict, verdictsOf } from "./odd-reading.ts";
import { type ChangeWords, type ReadMiddle, readingSentence } from "./odds.ts";
import { quantilesOrNever } from "./quantiles.ts";
import { seededRandom, streamSeed } from "./random.ts";
import {
  COLLAPSED_SHARE,
  effectiveSampleSize,
  equalWeights,
  type Measured,
  nearestSigmasOf,
  resample,
  temperedWeights,
} from "./reading.ts";
import { READING_METHODS, sdOfReading } from "./reading-methods.ts";
import { likelihoodOf, measurementsOf, REPEATED } from "./repeats.ts";
import type { Draw } from "./sample.ts";

export interface Bent<T extends DrawnMoisture = DrawnCourse> {
  /** `count` draws, equally weighted: drawn again by their weights. */
  readonly drawn: readonly T[];
  /** Which of the draws given those are; all of them, once, where no reading was used. */
  readonly picked: readonly number[];
  readonly effects: readonly ReadingAnswer[];
  /** Of all that was used, before it was drawn again. */
  readonly effectiveSize: number;
  readonly collapsed: boolean;
  /** How far the readings count, 0-1: `temperedWeights`. */
  readonly countedShare: number;
  /** True where at least one reading was used. */
  readonly used: boolean;
  /** What other cuts may go by; null where no reading was used, or one stands alone against nearly all draws. */
  readonly learned: LearnedRate | null;
  /** A reading that counts in part and stands alone: it taught nothing. */
  readonly alone: boolean;
  /** The means of the weighted draws. */
  readonly centre: { readonly swath: SwathRequest; readonly p: DryingParameters };
  /** The draw nearest the middle of those that go on, at the last reading that counts; null where none does. */
  readonly nearest: NearestDraw | null;
}

const MINUTE_MS = 60_000;

const RESAMPLE_STREAM = 101;

/** A reading that lies further than this from every draw is one that the sample did not think of, in its own deviations; assumed. */
const FAR_SIGMAS = 1;

function percent(wb: number): string {
  return `${Math.round(1000 * wb) / 10} %`;
}

function readingWords({ moistureWb, range }: ReadingRequest): string {
  return range === undefined
    ? percent(moistureWb ?? Number.NaN)
    : `${percent(range[0])} to ${percent(range[1])}`;
}

/** What was read with its own error: a value and a standard deviation either way, or the ends of an interval. */
function observedOf(reading: ReadingRequest) {
  const { moistureWb, range } = reading;
  if (range !== undefined) return { low: range[0], high: range[1] };
  const wb = moistureWb ?? Number.NaN;
  const sdWb = sdOfReading(reading);
  return { low: Math.max(0, wb - sdWb), high: Math.min(1, wb + sdWb) };
}

/** Why a reading is asked about, what it changes until then, and what would make it count. */
function questionText(verdict: Verdict, sigmas: number, after: boolean): string {
  const left = after ? " that the readings before it left" : "";
  const why =
    sigmas > ODD_READING.sigmas.value
      ? `It lies ${sigmas.toFixed(1)} standard deviations from the nearest of all courses${left}`
      : `Fewer than ${Math.round(1000 * ODD_READING.chance.value)} in 1000 readings${after ? " of the courses" : ""}${left} lie so far off`;
  const same =
    verdict === "same-again"
      ? " The one before it is no second one: taken the same way, with hardly any drying between."
      : "";
  return (
    `${why}: it was not used, all stays as it was.${same} Was it this field, this cut and this hour? Then confirm it. ` +
    `Or measure again ${BEARS_OUT}: a second one like it bears it out.`
  );
}

function effectText(
  reading: ReadingRequest,
  { verdict, sigmas, after, again }: { verdict: Verdict; sigmas: number; after: boolean; again: boolean },
  p10: number,
  p90: number,
) {
  const more = again
    ? ` Taken again within ${REPEATED.hours.value} h: together they count as one, by their mean.`
    : "";
  const what = `${READING_METHODS[reading.method].label}: ${readingWords(reading)}; expected ${percent(p10)} to ${percent(p90)}.${more}`;
  if (verdict === "fits") return what;
  if (verdict === "confirmed") return `${what} It lies far off, and is confirmed: it counts.`;
  if (verdict === "borne-out") return `${what} It lies far off, and another reading bears it out: it counts.`;
  return `${what} ${questionText(verdict, sigmas, after)}`;
}

/** Quantiles of weighted values by drawing them again; the same stream each time. */
function weightedSpread(values: readonly number[], weights: readonly number[], seed: number) {
  const again = resample(weights, seededRandom(streamSeed(seed, RESAMPLE_STREAM))).map(
    (i) => values[i] as number,
  );
  const { p10, p50, p90 } = quantilesOrNever(again);
  return { p10: p10 as number, p50: p50 as number, p90: p90 as number };
}

/** On which side of what 8 in 10 draws expected before any reading it lies: 1 wetter, -1 drier, 0 among them. */
function sideOf({ moistureWb, range }: ReadingRequest, moistures: readonly number[], seed: number): number {
  const { p10, p90 } = weightedSpread(moistures, equalWeights(moistures.length), seed);
  const [low, high] = range ?? [moistureWb ?? Number.NaN, moistureWb ?? Number.NaN];
  return low > p90 ? 1 : high < p10 ? -1 : 0;
}

/** Readings on one side, none independent of another, are as likely one slip as a field that dries otherwise. */
function standsAlone(used: readonly { readonly side: number; readonly one: Measured }[]): boolean {
  return [1, -1].some((side) => {
    const own = used.filter((each) => each.side === side).map(({ one }) => one);
    return own.length > 0 && !own.some((a, i) => own.slice(i + 1).some((b) => areIndependent(a, b)));
  });
}

/**
 * Bends the draws of one cut to its readings, in the order of time: all draws are weighted by how likely the readings are
 * where that draw is true, in part where hardly any draw agrees; readings taken again count as one (`REPEATED`); the draws that then hold the weight are drawn again, equally
 * weighted. A reading that is odd by what those before it left (`ODD_READING`, which is long before five standard deviations
 * from every draw) is questioned and changes nothing until it is confirmed or borne out.
 * One that counts in part, or that no draw comes within a standard deviation of, teaches the rate only once a second,
 * independent one lies on the same side, and then makes it no surer.
 */
export function bendToReadings<T extends DrawnMoisture>(
  drawn: readonly T[],
  swath: SwathRequest,
  readings: readonly ReadingRequest[],
  seed: number,
  count = drawn.length,
): Bent<T> {
  const prior = equalWeights(drawn.length);
  const measured = readings
    .toSorted((a, b) => Date.parse(a.atUtc) - Date.parse(b.atUtc))
    .map((reading): Measured => {
      const moistures = drawn.map((one) => drawnMoistureAt(one, Date.parse(reading.atUtc)));
      const middleWb = weightedSpread(moistures, prior, seed).p50;
      return { reading, sdWb: sdOfReading(reading), moistures, middleWb };
    });
  const verdicts = verdictsOf(measured);
  let weights = prior;
  let countedShare = 1;
  let learned: LearnedRate | null = null;
  let alone = false;
  let odd = false;
  const counted: { readonly side: number; readonly one: Measured }[] = [];
  const rateFactors = drawn.map(({ draw }) => draw.rateFactor);
  const effects = measured.map((one, k): ReadingAnswer => {
    const { reading, moistures, sdWb } = one;
    const atMs = Date.parse(reading.atUtc);
    const verdict = verdicts[k] as Verdict;
    const expectedWb = weightedSpread(moistures, weights, seed);
    const sigmas = nearestSigmasOf(weights, moistures, reading, sdWb);
    const asFarChance = asFarOff(weights, one).chance;
    const used = verdict !== "questioned" && verdict !== "same-again";
    const after = counted.length > 0;
    let again = false;
    if (used) {
      counted.push({ side: sideOf(reading, moistures, seed), one });
      const all = counted.map((each) => each.one);
      ({ weights, countedShare } = temperedWeights(likelihoodOf(all, drawn.length)));
      again = measurementsOf(all).some((group) => group.length > 1 && group.at(-1) === one);
      // Few draws near it, or none: near dryness many lie close and still none as far as what was read.
      odd = countedShare < 1 || odd || sigmas > FAR_SIGMAS;
      alone = odd && standsAlone(counted);
      const priorLnSd = () => learnRate(rateFactors, prior, atMs).lnSd;
      if (!alone) learned = learnRate(rateFactors, weights, atMs, odd ? priorLnSd() : undefined);
    }
    return {
      atUtc: reading.atUtc,
      method: reading.method,
      observedWb: observedOf(reading),
      used,
      verdict,
      sdWb,
      expectedWb,
      nearestSigmas: sigmas,
      asFarChance,
      effectiveSize: effectiveSampleSize(weights),
      text: effectText(reading, { verdict, sigmas, after, again }, expectedWb.p10, expectedWb.p90),
    };
  });
  const effectiveSize = effectiveSampleSize(weights);
  const last = counted.at(-1)?.one ?? null;
  const used = last !== null;
  const again = resample(weights, seededRandom(streamSeed(seed, RESAMPLE_STREAM)), count);
  const mean = (of: (draw: Draw) => number) =>
    drawn.reduce((sum, { draw }, i) => sum + (weights[i] as number) * of(draw), 0);
  return {
    drawn: used ? again.map((i) => drawn[i] as T) : drawn,
    picked: used ? again : drawn.map((_, i) => i),
    effects,
    effectiveSize,
    collapsed: effectiveSize < COLLAPSED_SHARE * drawn.length,
    countedShare,
    used,
    learned,
    alone,
    centre: used
      ? {
          swath: {
            ...swath,
            initialMoistureWb: mean((draw) => draw.initialMoistureWb),
            dryMatterTHa: mean((draw) => draw.dryMatterTHa),
            soil: heaviestSoil(drawn, weights),
          },
          p: parametersAtRate(Math.exp(mean((draw) => Math.log(draw.rateFactor)))),
        }
      : { swath, p: DRYING_PARAMETERS },
    nearest: last
      ? nearestDraw(drawn, weights, last, weightedSpread(last.moistures, weights, seed).p50)
      : null,
  };
}

/** What is to be said where hardly any draw agrees with the readings; null where enough do. */
export function fewAgreeText(
  { countedShare, effectiveSize, alone }: Pick<Bent, "countedShare" | "effectiveSize" | "alone">,
  of: number,
): string | null {
  if (countedShare === 1)
    return alone
      ? `None of the ${of} drawn courses comes to what was read: other cuts go by it once a second reading bears it out. ` +
          "Measure again, and see whether moisture at cutting, yield and width are this field's."
      : null;
  return (
    `Hardly any of the ${of} drawn courses agrees with what was read: it counts in part only, so that ` +
    `${Math.round(effectiveSize)} of them still tell the course. ` +
    (alone ? "Other cuts go by it once a second reading bears it out. " : "") +
    "Measure again, and see whether moisture at cutting, yield and width are this field's."
  );
}

/**
 * What the readings changed for one target, in a sentence: hours of the course shown, without the readings and with them,
 * and the moment to the minute, UTC.
 *
 * @param last the last reading that counts and the middle of what it read: no moment before it is told as due
 */
export function changeOf(
  before: TargetAnswer,
  after: TargetAnswer,
  cutUtcMs: number,
  last: ReadMiddle | null = null,
): ReadingsAnswer["changes"][number] {
  const hours = (target: TargetAnswer) => (target.reached ? target.elapsedHours : null);
  const { targetWb } = after;
  const [beforeHours, afterHours] = [hours(before), hours(after)];
  const words: ChangeWords = {
    target: `${Math.round(100 * targetWb)} %`,
    when: (h) =>
      `${utcLabel(cutUtcMs + Math.round(h * 60) * MINUTE_MS)} (${Math.round(10 * h) / 10} h after cutting)`,
    number: String,
  };
  const read = last && { hours: (last.atMs - cutUtcMs) / HOUR_MS, wasDown: last.wb <= targetWb };
  return { targetWb, beforeHours, afterHours, text: readingSentence(beforeHours, afterHours, words, read) };
}
