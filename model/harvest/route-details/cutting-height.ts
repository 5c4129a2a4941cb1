import { type Coefficient, coefficient } from "../../coefficient.ts";
import { CROP_CATALOGUE } from "../../drying/crops.ts";
import type { CropKey } from "../../drying/keys.ts";
import { requireRange } from "../../limits.ts";
import { isCoarse } from "../bands.ts";
import { NITRATE_ACCUMULATORS } from "../hazards/records.ts";
import type { RouteKey } from "../keys.ts";
import { STUBBLE_FROM_CM, STUBBLE_TO_CM } from "./limits.ts";
import { stalkLeft } from "./stalk.ts";

const CM_PER_IN = 2.54;
/** 6.8 to 19.3 in, 11 trials. */
const TRIAL_CM = (19.3 - 6.8) * CM_PER_IN;
const PENN_STATE =
  "6.8 against 19.3 in, 11 trials (Penn State, cutting height of corn silage, 2023, second-hand)";

export const CUTTING_HEIGHT = {
  cornPctPerCm: coefficient(
    (100 * (8.1 - 7.5)) / 8.1 / TRIAL_CM,
    "% of dry matter a cm",
    "published",
    `8.1 to 7.5 t DM an acre: ${PENN_STATE}`,
    [0.15, 0.4],
  ),
  finePctPerCm: coefficient(
    2,
    "% of dry matter a cm",
    "assumed",
    "hay crops are short and dense at the foot; no source at hand",
    [1, 3.6],
  ),
  cornPointsPerCm: coefficient(
    (40.3 - 38.1) / TRIAL_CM,
    "points of moisture a cm",
    "published",
    `38.1 to 40.3 % dry matter, about 2-4 points: ${PENN_STATE}`,
    [2 / TRIAL_CM, 4 / TRIAL_CM],
  ),
  soilUnderCm: coefficient(
    7,
    "cm",
    "from-memory",
    "lower than 7-10 cm a machine takes soil with the crop",
    [5, 10],
  ),
  suspectCm: coefficient(
    12 * CM_PER_IN,
    "cm",
    "published",
    "dry stalk hay 8-12 in (Nebraska, reported), 10-12 (Penn State), 12 (Michigan State), sorghums 6-12 (Kansas, reported): the highest computes",
    [6 * CM_PER_IN, 12 * CM_PER_IN],
  ),
  bottomShare: coefficient(
    1 / 3,
    "of plant height",
    "published",
    "leave the bottom third (Florida AG279)",
    null,
  ),
} as const;

/** Common practice, no source: shown beside the published height, never what computes. cm. */
export const PRACTICE_STUBBLE_CM: Readonly<Partial<Record<RouteKey, readonly [number, number]>>> = {
  "green-chop": [30, 38],
  "dry-hay": [20, 30],
  "wrapped-bales": [15, 20],
  grazing: [15, 20],
};
export const PRACTICE_STUBBLE_LABEL = "common practice, no source";

export interface HeightAdvice {
  readonly cm: number;
  /** True where it is a published least that must not be rounded down; false for the usual stubble of the crop. */
  readonly least: boolean;
  readonly source: string;
  readonly practiceCm: readonly [number, number] | null;
}

const FRESH: readonly RouteKey[] = ["green-chop", "grazing"];

/**
 * Height to cut (or graze down to), which the user may override: the crop's usual stubble; where nitrate is suspect, a foot;
 * of a crop that can hold nitrate and is taken fresh, the bottom third of the plant whatever a laboratory found.
 *
 * @param suspect true while nitrate is untested or over the first limit
 * @param plantHeightCm null where it was not measured
 */
export function recommendedHeight(
  route: RouteKey,
  crop: CropKey,
  suspect: boolean,
  plantHeightCm: number | null,
): HeightAdvice {
  const practiceCm = isCoarse(crop) || crop === "sudangrass" ? (PRACTICE_STUBBLE_CM[route] ?? null) : null;
  const { usualStubbleCm } = CROP_CATALOGUE[crop];
  const usual = {
    cm: usualStubbleCm,
    least: false,
    source: "usual stubble of the crop, from memory",
    practiceCm,
  };
  if (!NITRATE_ACCUMULATORS.includes(crop)) return usual;
  const { suspectCm, bottomShare } = CUTTING_HEIGHT;
  const third = FRESH.includes(route) && plantHeightCm !== null ? plantHeightCm * bottomShare.value : 0;
  const cm = Math.max(usualStubbleCm, suspect ? suspectCm.value : 0, third);
  if (cm === usualStubbleCm) return usual;
  return { cm, least: true, source: third === cm ? bottomShare.source : suspectCm.source, practiceCm };
}

export interface HeightQuestion {
  readonly crop: CropKey;
  /** Dry matter of the crop cut at `fromCm`, t/ha. */
  readonly dryMatterTHa: number;
  readonly fromCm: number;
  readonly toCm: number;
  readonly plantHeightCm: number | null;
  /** Whole crop cut at `fromCm`; null where it was not tested. */
  readonly nitratePpm: number | null;
}

export interface HeightTradeOff {
  readonly givenUpTHa: number;
  /** Points of moisture that stay in the stubble; 0 where no figure is known. */
  readonly drierPoints: number;
  /** The nitrate to plan with: as tested. Height is no credit until the cut crop is tested. */
  readonly planPpm: number | null;
  /** What it would be if nitrate sat as in the published plants; null without a test or a height. A promise of nothing. */
  readonly profilePpm: number | null;
  readonly soilContact: boolean;
  readonly source: Coefficient["source"];
}

const NO_CREDIT =
  "one field screen found nitrate up to 3 ft up the stalk (Iowa State, 2005): test the crop as cut";

/** What a higher cut costs and leaves behind. A higher stubble never raises the nitrate that is taken. */
export function heightTradeOff(question: HeightQuestion): HeightTradeOff {
  const { crop, dryMatterTHa, fromCm, toCm, plantHeightCm, nitratePpm } = question;
  requireRange("heightTradeOff", "fromCm", fromCm, STUBBLE_FROM_CM.min, STUBBLE_FROM_CM.max);
  requireRange("heightTradeOff", "toCm", toCm, fromCm, STUBBLE_TO_CM.max);
  const { cornPctPerCm, finePctPerCm, cornPointsPerCm, soilUnderCm } = CUTTING_HEIGHT;
  const coarse = isCoarse(crop) || crop === "sudangrass";
  const slope = coarse ? cornPctPerCm : finePctPerCm;
  const share = Math.min(1, (slope.value * (toCm - fromCm)) / 100);
  const known = coarse && plantHeightCm !== null && nitratePpm !== null;
  return {
    givenUpTHa: dryMatterTHa * share,
    drierPoints: coarse ? cornPointsPerCm.value * (toCm - fromCm) : 0,
    planPpm: nitratePpm,
    profilePpm: known
      ? (nitratePpm * stalkLeft(toCm / plantHeightCm).ppmShare) / stalkLeft(fromCm / plantHeightCm).ppmShare
      : null,
    soilContact: toCm < soilUnderCm.value,
    source: coarse ? `${slope.source}; ${NO_CREDIT}` : slope.source,
  };
}
