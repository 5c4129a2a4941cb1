import { coefficient } from "../../coefficient.ts";
import { CROP_CATALOGUE } from "../../drying/crops.ts";
import type { CropKey } from "../../drying/keys.ts";
import type { LossStep } from "./loss-chain.ts";

/** What the lost matter does to what is left. Each is a straight line through one published pair. */
export const QUALITY = {
  ndfPerSugarPoint: coefficient(
    3 / 4,
    "NDF points for each point of sugar lost",
    "published",
    "a 4-point sugar loss raises NDF by about 3 (Undersander, rapid drying reduces respiration losses)",
    [0, 4],
  ),
  rfqPerSugarPoint: coefficient(
    20 / 4,
    "RFQ for each point of sugar lost",
    "published",
    "a 4-point sugar loss costs about 20 RFQ (Undersander)",
    [0, 4],
  ),
  proteinPerLeafPoint: coefficient(
    1.2 / 5,
    "protein points for each point of leaf lost",
    "published",
    "leaf loss of 5 points cuts protein by 1.2 (University of Wisconsin, leaf percentage)",
    [0, 5],
  ),
  ndfPerLeafPoint: coefficient(
    2.2 / 5,
    "NDF points for each point of leaf lost",
    "published",
    "leaf loss of 5 points adds 2.2 NDF (University of Wisconsin, leaf percentage)",
    [0, 5],
  ),
  leafShareOfShatter: coefficient(
    1,
    "of what machines drop of a legume",
    "assumed",
    "constructed: all of it leaf, the stricter end",
    [0.6, 1],
  ),
  digestibilityPerRainPoint: coefficient(
    6.4 / 15.4,
    "points of digestibility for each per cent lost to rain",
    "assumed",
    "constructed from the ends of two ranges: rain took up to 15.4 points of dry matter and 1.3 to 6.4 of digestibility (Collins 1985)",
    [1.3 / 15.4, 6.4 / 15.4],
  ),
} as const;

export interface QualityLost {
  /** Points of NDF gained by what is left. */
  readonly ndfPoints: number;
  readonly rfq: number;
  readonly proteinPoints: number;
  readonly digestibilityPoints: number;
}

/** Steps at which leaf falls off. */
const SHATTERING: readonly LossStep["step"][] = ["ted", "rake", "invert", "baling"];

function sum(steps: readonly LossStep[], kinds: readonly LossStep["step"][]): number {
  return steps.filter(({ step }) => kinds.includes(step)).reduce((total, { pct }) => total + pct, 0);
}

/**
 * Quality lost in the field and at the baler, in points: respiration takes sugar, machines take leaf of legumes, rain
 * takes what dissolves. What a store or a grade ladder takes is not in it.
 */
export function qualityLost(crop: CropKey, steps: readonly LossStep[]): QualityLost {
  const sugar = sum(steps, ["respiration"]);
  const leaf = CROP_CATALOGUE[crop].legume ? sum(steps, SHATTERING) * QUALITY.leafShareOfShatter.value : 0;
  const rain = sum(steps, ["rain"]);
  return {
    ndfPoints: sugar * QUALITY.ndfPerSugarPoint.value + leaf * QUALITY.ndfPerLeafPoint.value,
    rfq: sugar * QUALITY.rfqPerSugarPoint.value,
    proteinPoints: leaf * QUALITY.proteinPerLeafPoint.value,
    digestibilityPoints: rain * QUALITY.digestibilityPerRainPoint.value,
  };
}
