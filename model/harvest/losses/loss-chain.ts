import { requireRange } from "../../limits.ts";

/** What may be lost between the standing crop and the animal, in the order in which it happens. */
export const LOSS_STEPS = [
  "mowing",
  "respiration",
  "rain",
  "ted",
  "rake",
  "invert",
  "baling",
  "chopping",
  "storage",
  "feeding-out",
  "grazing",
] as const;
export type LossStepKey = (typeof LOSS_STEPS)[number];

/** One step: per cent of the dry matter present when it happens, with the spread of what was measured or believed. */
export interface LossStep {
  readonly step: LossStepKey;
  readonly pct: number;
  readonly lowPct: number;
  readonly highPct: number;
  /** Where the number comes from, in words; a constructed curve says so. */
  readonly source: string;
}

export interface LossTotal {
  /** Of the standing crop, per cent. */
  readonly pct: number;
  /** With every step at its low or high end at once: wider than is likely. */
  readonly lowPct: number;
  readonly highPct: number;
  readonly keptFraction: number;
}

/**
 * Total of losses in sequence: each takes its share of what the one before left, so kept shares multiply.
 *
 * @param pcts each 0-100
 * @returns per cent of the first, 0-100
 * @throws RangeError for a step outside 0-100
 * @example chainPct([2, 3.2, 3.5, 1.8, 1.1, 4.2]) // 14.83
 */
export function chainPct(pcts: readonly number[]): number {
  const kept = pcts.reduce((share, pct) => {
    requireRange("chainPct", "pct", pct, 0, 100);
    return share * (1 - pct / 100);
  }, 1);
  return 100 * (1 - kept);
}

/** The steps multiplied to a total. Steps that repeat (two tedder passes) count each. */
export function lossTotal(steps: readonly LossStep[]): LossTotal {
  const pct = chainPct(steps.map((step) => step.pct));
  return {
    pct,
    lowPct: chainPct(steps.map((step) => step.lowPct)),
    highPct: chainPct(steps.map((step) => step.highPct)),
    keptFraction: 1 - pct / 100,
  };
}

/** The same steps with those of one kind multiplied into one, in the order of LOSS_STEPS: what an answer shows. */
export function lossSteps(
  steps: readonly LossStep[],
): { readonly step: LossStepKey; readonly pct: number }[] {
  return LOSS_STEPS.flatMap((step) => {
    const same = steps.filter((one) => one.step === step).map(({ pct }) => pct);
    return same.length === 0 ? [] : [{ step, pct: chainPct(same) }];
  });
}

/** Quantiles of the members' totals, linear between them (type 7); all null where there are no members. */
export function lossQuantiles(
  totals: readonly number[],
): Readonly<Record<"p10" | "p25" | "p50" | "p75" | "p90", number | null>> {
  const sorted = totals.toSorted((a, b) => a - b);
  const at = (p: number): number | null => {
    const place = p * (sorted.length - 1);
    const below = sorted[Math.floor(place)];
    const above = sorted[Math.ceil(place)];
    if (below === undefined || above === undefined) return null;
    return below + (above - below) * (place - Math.floor(place));
  };
  return { p10: at(0.1), p25: at(0.25), p50: at(0.5), p75: at(0.75), p90: at(0.9) };
}
