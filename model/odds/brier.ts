/** A chance that was told and whether the thing came. */
export interface ChanceOutcome {
  readonly chance: number;
  readonly came: boolean;
}

export interface BrierParts {
  readonly brier: number;
  readonly reliability: number;
  readonly resolution: number;
  readonly uncertainty: number;
  /** What chances that differ within a bin add: their variance less twice their covariance with what came; 0 without bins. */
  readonly withinBins: number;
  /** 1 - BS / uncertainty; null where the thing always or never came. */
  readonly skill: number | null;
}

export interface ReliabilityBin {
  /** Edges of told chance; the last bin holds its upper edge. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Null in an empty bin. */
  readonly meanChance: number | null;
  readonly observedShare: number | null;
}

function requireOutcomes(outcomes: readonly ChanceOutcome[]): void {
  if (outcomes.length === 0) throw new RangeError("brier: needs at least one outcome, got 0");
  for (const { chance } of outcomes) {
    if (!(chance >= 0 && chance <= 1)) {
      throw new RangeError(`brier: chance must be in [0, 1], got ${chance}`);
    }
  }
}

/** Bins of a record: of real chances hardly two are alike. Common practice for few days, no source. */
export const RELIABILITY_BINS = 5;

/** Which of so many equal bins a chance falls in; the last holds its upper edge. */
function binOf(chance: number, bins: number): number {
  return Math.min(bins - 1, Math.floor(chance * bins));
}

/**
 * Brier score, mean (p - o)², in parts: BS = reliability - resolution + uncertainty + within, exactly. Without `bins` each
 * distinct chance is its own bin and nothing lies within: Murphy 1973, A new vector partition of the probability score,
 * J. Appl. Meteorol. 12:595. With bins each is told by its mean chance, and the variance of its chances less twice their
 * covariance with what came is left: Stephenson, Coelho & Jolliffe 2008, Two extra components in the Brier score
 * decomposition, Weather Forecast. 23:752 (from memory).
 *
 * @param bins equal bins of told chance; absent = one for each distinct chance
 */
export function brierParts(outcomes: readonly ChanceOutcome[], bins?: number): BrierParts {
  requireOutcomes(outcomes);
  const count = outcomes.length;
  const groups = new Map<
    number,
    { n: number; came: number; chances: number; squares: number; both: number }
  >();
  let brier = 0;
  let cameAll = 0;
  for (const { chance, came } of outcomes) {
    const o = came ? 1 : 0;
    brier += (chance - o) ** 2 / count;
    cameAll += o;
    const key = bins === undefined ? chance : binOf(chance, bins);
    const group = groups.get(key) ?? { n: 0, came: 0, chances: 0, squares: 0, both: 0 };
    groups.set(key, {
      n: group.n + 1,
      came: group.came + o,
      chances: group.chances + chance,
      squares: group.squares + chance ** 2,
      both: group.both + chance * o,
    });
  }
  const base = cameAll / count;
  let reliability = 0;
  let resolution = 0;
  let withinBins = 0;
  for (const [key, { n, came, chances, squares, both }] of groups) {
    const mean = bins === undefined ? key : chances / n;
    reliability += (n * (mean - came / n) ** 2) / count;
    resolution += (n * (came / n - base) ** 2) / count;
    if (bins !== undefined) withinBins += (squares - n * mean ** 2 - 2 * (both - mean * came)) / count;
  }
  const uncertainty = base * (1 - base);
  return {
    brier,
    reliability,
    resolution,
    uncertainty,
    withinBins,
    skill: uncertainty > 0 ? 1 - brier / uncertainty : null,
  };
}

/** How often the thing came among chances told alike, in equal bins; empty bins stay, with their count of 0. */
export function reliabilityBins(
  outcomes: readonly ChanceOutcome[],
  bins = RELIABILITY_BINS,
): readonly ReliabilityBin[] {
  if (!(Number.isInteger(bins) && bins >= 1)) {
    throw new RangeError(`reliabilityBins: bins must be a whole number from 1, got ${bins}`);
  }
  if (outcomes.length > 0) requireOutcomes(outcomes);
  return Array.from({ length: bins }, (_, k) => {
    const inside = outcomes.filter(({ chance }) => binOf(chance, bins) === k);
    const count = inside.length;
    return {
      from: k / bins,
      to: (k + 1) / bins,
      count,
      meanChance: count === 0 ? null : inside.reduce((sum, { chance }) => sum + chance, 0) / count,
      observedShare: count === 0 ? null : inside.filter(({ came }) => came).length / count,
    };
  });
}
