import { brierParts, type ChanceOutcome, RELIABILITY_BINS } from "./brier.ts";
import {
  type DayScore,
  type ScoreWithConfidence,
  scoreWithConfidence,
  shareWithConfidence,
} from "./confidence.ts";
import { type Quantiles, quantiles, TOLD_SHARES, type ToldShare } from "./quantiles.ts";
import { binsByDays, type RecordBin } from "./reliability.ts";
import { crpsOfMembers, pinball } from "./scores.ts";

/** One issued forecast of moisture that met a reading. */
export interface MoistureMet {
  /** The farm's day of the reading, "2026-07-02". */
  readonly day: string;
  readonly leadH: number;
  readonly route: string | null;
  /** The draws' moistures at the time of the reading, equally weighted, as issued: before it was learned from. */
  readonly membersWb?: readonly number[] | undefined;
  /** Where only the told quantiles were kept. */
  readonly bandsWb?: Quantiles | undefined;
  readonly observedWb: number;
}

/** One chance that was told and whether the thing came. */
export interface ChanceMet extends ChanceOutcome {
  readonly day: string;
  readonly leadH: number;
  readonly route: string | null;
}

/** Lead times are told in these spans, h: from, to. */
export const LEAD_SPANS_H = [
  [0, 24],
  [24, 72],
  [72, 120],
  [120, 384],
] as const satisfies readonly (readonly [number, number])[];

/** Farther ahead nothing is scored, h; this lead itself is. */
export const LONGEST_LEAD_H = LEAD_SPANS_H[3][1];

export interface RecordGroup {
  readonly route: string | null;
  readonly leadH: readonly [number, number];
}

export interface MoistureScores extends RecordGroup {
  /** Forecast median less reading, and its size, wet-basis fraction. */
  readonly bias: ScoreWithConfidence;
  readonly absoluteError: ScoreWithConfidence;
  readonly crps: ScoreWithConfidence;
  /** Share of readings inside the 10-90 % band: 0.8 if the bands are right, a little less with few members. */
  readonly inside80: ScoreWithConfidence;
}

export interface ChanceScores extends RecordGroup {
  readonly brier: ScoreWithConfidence;
  /** By the five bins of the picture; null where there are too few days to say. */
  readonly parts: ReturnType<typeof brierParts> | null;
  readonly bins: readonly RecordBin[] | null;
}

/**
 * Share of readings inside the 10-90 % band (type 7) of m members when all come from the same distribution:
 * 0.8 (m - 1) / (m + 1), so 0.77 for 51 and 0.79 for 200. Expectation of uniform order statistics.
 */
export function perfectCover80(members: number): number {
  return (0.8 * (members - 1)) / (members + 1);
}

function grouped<T extends { readonly leadH: number; readonly route: string | null }>(
  met: readonly T[],
): readonly (RecordGroup & { readonly met: readonly T[] })[] {
  const routes = [...new Set(met.map(({ route }) => route))].sort((a, b) => ((a ?? "") < (b ?? "") ? -1 : 1));
  return routes.flatMap((route) =>
    LEAD_SPANS_H.flatMap((leadH) => {
      const [from, to] = leadH;
      const inside = met.filter(
        (one) =>
          one.route === route &&
          one.leadH >= from &&
          (one.leadH < to || (one.leadH === LONGEST_LEAD_H && to === LONGEST_LEAD_H)),
      );
      return inside.length === 0 ? [] : [{ route, leadH, met: inside }];
    }),
  );
}

/** Share of the line from 0 to 1 that each told quantile stands for, ends included; adds to 1. */
const TOLD_WEIGHTS: Readonly<Record<ToldShare, number>> = {
  p10: 0.175,
  p25: 0.2,
  p50: 0.25,
  p75: 0.2,
  p90: 0.175,
};

/**
 * CRPS from the five told quantiles alone: twice the pinball loss over them. Nobody knows the tails: of a standard normal
 * forecast it is 0.225 for 0.234 at its middle, 0.605 for 0.602 at one deviation, 1.51 for 1.45 at two, 2.51 for 2.44 at
 * three; 2.2 % too high in the mean where the forecast is right.
 */
export function crpsOfBands(bands: Quantiles, observed: number): number {
  return (Object.keys(TOLD_SHARES) as ToldShare[]).reduce(
    (sum, name) => sum + 2 * TOLD_WEIGHTS[name] * pinball(bands[name], TOLD_SHARES[name], observed),
    0,
  );
}

interface Told {
  readonly bands: Quantiles;
  readonly crps: number;
}

function toldOf({ membersWb, bandsWb, observedWb }: MoistureMet): Told {
  if (membersWb !== undefined && membersWb.length > 0)
    return { bands: quantiles(membersWb), crps: crpsOfMembers(membersWb, observedWb) };
  if (bandsWb === undefined) throw new RangeError("moistureRecord: needs membersWb or bandsWb, got neither");
  return { bands: bandsWb, crps: crpsOfBands(bandsWb, observedWb) };
}

/** Scores of moisture by route and lead time. Empty groups are left out; small ones say that they are too small. */
export function moistureRecord(met: readonly MoistureMet[], seed: number): readonly MoistureScores[] {
  return grouped(met).map(({ route, leadH, met: inside }) => {
    const told = inside.map(toldOf);
    const score = (
      of: (one: Told, observedWb: number) => number,
      withConfidence = scoreWithConfidence,
    ): ScoreWithConfidence => {
      const scores: DayScore[] = inside.map(({ day, observedWb }, i) => ({
        day,
        score: of(told[i] as Told, observedWb),
      }));
      return withConfidence(scores, seed);
    };
    return {
      route,
      leadH,
      bias: score(({ bands }, wb) => bands.p50 - wb),
      absoluteError: score(({ bands }, wb) => Math.abs(bands.p50 - wb)),
      crps: score(({ crps }) => crps),
      inside80: score(({ bands }, wb) => (wb >= bands.p10 && wb <= bands.p90 ? 1 : 0), shareWithConfidence),
    };
  });
}

/** Brier scores and reliability of told chances by route and lead time. */
export function chanceRecord(met: readonly ChanceMet[], seed: number): readonly ChanceScores[] {
  return grouped(met).map(({ route, leadH, met: inside }) => {
    const scores = inside.map(({ day, chance, came }) => ({ day, score: (chance - (came ? 1 : 0)) ** 2 }));
    const brier = scoreWithConfidence(scores, seed);
    return {
      route,
      leadH,
      brier,
      parts: brier.enough ? brierParts(inside, RELIABILITY_BINS) : null,
      bins: brier.enough ? binsByDays(inside, seed) : null,
    };
  });
}
