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

/**
 * Brier score, mean (p - o)², with Murphy's parts: BS = reliability - resolution + uncertainty, exactly, because each
 * distinct chance is its own bin. Murphy 1973, A new vector partition of the probability score, J. Appl. Meteorol. 12:595.
 */
export function brierParts(outcomes: readonly ChanceOutcome[]): BrierParts {
  requireOutcomes(outcomes);
  const count = outcomes.length;
  const groups = new Map<number, { n: number; came: number }>();
  let brier = 0;
  let cameAll = 0;
  for (const { chance, came } of outcomes) {
    const o = came ? 1 : 0;
    brier += (chance - o) ** 2 / count;
    cameAll += o;
    const group = groups.get(chance) ?? { n: 0, came: 0 };
    groups.set(chance, { n: group.n + 1, came: group.came + o });
  }
  const base = cameAll / count;
  let reliability = 0;
  let resolution = 0;
  for (const [chance, { n, came }] of groups) {
    reliability += (n * (chance - came / n) ** 2) / count;
    resolution += (n * (came / n - base) ** 2) / count;
  }
  const uncertainty = base * (1 - base);
  return {
    brier,
    reliability,
    resolution,
    uncertainty,
    skill: uncertainty > 0 ? 1 - brier / uncertainty : null,
  };
}

/** How often the thing came among chances told alike, in equal bins; empty bins stay, with their count of 0. */
export function reliabilityBins(outcomes: readonly ChanceOutcome[], bins = 5): readonly ReliabilityBin[] {
  if (!(Number.isInteger(bins) && bins >= 1)) {
    throw new RangeError(`reliabilityBins: bins must be a whole number from 1, got ${bins}`);
  }
  if (outcomes.length > 0) requireOutcomes(outcomes);
  return Array.from({ length: bins }, (_, k) => {
    const inside = outcomes.filter(({ chance }) => Math.min(bins - 1, Math.floor(chance * bins)) === k);
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
