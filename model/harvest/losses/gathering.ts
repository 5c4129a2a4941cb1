import { type Coefficient, coefficient } from "../../coefficient.ts";
import { CROP_CATALOGUE } from "../../drying/crops.ts";
import type { CropKey } from "../../drying/keys.ts";
import { requireRange } from "../../limits.ts";
import type { PackageKey } from "../keys.ts";
import type { LossStep } from "./loss-chain.ts";

/** Pick-up and chamber together, per cent of dry matter, in hay near its wettest keeping moisture. */
export const BALING_LOSS: Readonly<Record<PackageKey | "round-fixed-chamber", Coefficient>> = {
  "small-square": coefficient(
    4,
    "%",
    "from-memory",
    "3-5 %; measured on alfalfa: pick-up 1.8 and chamber 1.1 % (Rotz & Abrams 1988)",
    [2.9, 5],
  ),
  "large-square": coefficient(3.5, "%", "from-memory", "3-4 %", [3, 4]),
  round: coefficient(
    5.5,
    "%",
    "from-memory",
    "variable chamber 4-7 %; round balers averaged 10 % against 3 % of rectangular ones (Kjelgaard et al.)",
    [4, 10],
  ),
  "round-fixed-chamber": coefficient(10.5, "%", "from-memory", "fixed chamber 8-13 %", [8, 13]),
  "stalk-bale": coefficient(5.5, "%", "assumed", "as a round baler in hay; not measured on stalks", [4, 10]),
};

const GROWER_NOTES = "leaf loss at baling 5 % at 18 % moisture, 8 % at 13 % (grower notes, low authority)";

export const BALING_CURVE = {
  /** Legume leaf: growth of the loss for every point drier than `dryBelowWb`. */
  dryPerPoint: coefficient(
    Math.log(8 / 5) / 5,
    "1/point",
    "assumed",
    `constructed from ${GROWER_NOTES}`,
    [0, 0.1],
  ),
  dryBelowWb: coefficient(0.18, "wb", "assumed", GROWER_NOTES, [0.16, 0.2]),
  mostPct: coefficient(20, "%", "assumed", "cap of the constructed curve", [15, 25]),
  /** Wilted crop for film: half of the hay loss from `halfFromWb` up, straight between. */
  moistShare: coefficient(0.5, "-", "from-memory", "at 40-60 % moisture halve or less", [0.2, 0.5]),
  halfFromWb: coefficient(0.4, "wb", "from-memory", "at 40-60 % moisture halve or less", [0.4, 0.6]),
} as const;

export const CHOPPING_LOSS = coefficient(3, "%", "from-memory", "1-8 %, usually 3", [1, 8]);

/**
 * Loss at the baler.
 *
 * @param moistureWb of the crop as it is baled, wet basis, 0-1. Drier never loses less.
 */
export function balingLoss(pack: keyof typeof BALING_LOSS, crop: CropKey, moistureWb: number): LossStep {
  requireRange("balingLoss", "moistureWb", moistureWb, 0, 1);
  const { dryPerPoint, dryBelowWb, mostPct, moistShare, halfFromWb } = BALING_CURVE;
  const toMoist = (moistureWb - dryBelowWb.value) / (halfFromWb.value - dryBelowWb.value);
  const moist = 1 - (1 - moistShare.value) * Math.min(1, Math.max(0, toMoist));
  const pointsDry = CROP_CATALOGUE[crop].legume ? Math.max(0, dryBelowWb.value - moistureWb) * 100 : 0;
  const factor = moist * Math.exp(dryPerPoint.value * pointsDry);
  const { value, validRange, source } = BALING_LOSS[pack];
  const scaled = (pct: number) => Math.min(mostPct.value, pct * factor);
  return {
    step: "baling",
    pct: scaled(value),
    lowPct: scaled(validRange?.[0] ?? value),
    highPct: scaled(validRange?.[1] ?? value),
    source,
  };
}

/** Loss at the chopper: pieces blown past, leaf dust, what the pick-up leaves. */
export function choppingLoss(): LossStep {
  const { value, validRange, source } = CHOPPING_LOSS;
  return {
    step: "chopping",
    pct: value,
    lowPct: validRange?.[0] ?? value,
    highPct: validRange?.[1] ?? value,
    source,
  };
}
