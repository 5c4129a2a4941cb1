import type { DryingParameters } from "./coefficients.ts";
import { CONDITIONING_CATALOGUE, DRYING_AGENT } from "./conditioning.ts";
import type { Crop } from "./crops.ts";
import { CROP_CATALOGUE } from "./crops.ts";
import type { SoilClass } from "./keys.ts";
import { dryBasis } from "./moisture.ts";
import type { SwathRequest } from "./request.ts";

/** Water of one covered square metre of swath at a moment. */
export interface SwathState {
  /** Free water on the surface, mm. */
  readonly filmMm: number;
  /** Leaf and stem moisture, dry basis. */
  readonly leafDb: number;
  readonly stemDb: number;
  /** Mean moisture at the last mixing (cutting, tedding, raking, inverting), dry basis. */
  readonly mixedDb: number;
  /** Swath above air temperature (K) and humidity inside it at the last solution: the first guess of the next. */
  readonly riseK: number;
  readonly rhFrac: number;
  /** How fast each pool last changed, as a share of itself per hour: where the next middle is looked for first. */
  readonly trend?: { readonly leafPerH: number; readonly stemPerH: number };
}

/** What stays the same between two operations. */
export interface SwathMake {
  /** Dry matter, kg per covered m². */
  readonly dryMatterKgM2: number;
  readonly leafShare: number;
  /** Conductance of fresh leaf and stem before shape and density, m/s. */
  readonly leafMps: number;
  readonly stemMps: number;
  /** ln(SD / 450). */
  readonly logDensity: number;
  /** What density leaves of the conductance of tissue that is not yet dry. */
  readonly fullDensity: number;
  /**
   * Share of net radiation, by day and by night, and of rain that the swath has, 0-1. By day the dry ground under a thin
   * swath hands back what passed; at night the ground makes up for its own loss.
   */
  readonly dayLightShare: number;
  readonly nightLightShare: number;
  readonly rainShare: number;
  /** Share of conductance lost when the exposed layer is dry. */
  readonly layerLoss: number;
  /** Conductance between wet ground and the swath, m/s, by day; 0 on dry soil. */
  readonly soilMps: number;
  readonly coarseStem: boolean;
  /** Moisture at which stems take up no more free water, dry basis, and their absorption time, h. */
  readonly stemSaturationDb: number;
  readonly stemAbsorptionH: number;
}

/** Humidity inside a fresh swath: the first guess of its first solution. */
export const FIRST_GUESS_RH = 0.9;

const REFERENCE_DENSITY_GM2 = 450;

function soilWetness(soil: SoilClass, p: DryingParameters): number {
  return soil === "wet" ? 1 : soil === "moist" ? p.moistSoil : 0;
}

const G_M2_PER_T_HA = 100;

/** Dry matter per covered m², g, of a yield in t per ha of field under a swath of this cover. */
export function coveredGM2(dryMatterTHa: number, coveredFraction: number): number {
  return (dryMatterTHa * G_M2_PER_T_HA) / coveredFraction;
}

/** The make of a swath of `dryMatterKgM2` per covered m². */
export function swathMake(swath: SwathRequest, dryMatterKgM2: number, p: DryingParameters): SwathMake {
  const crop: Crop = CROP_CATALOGUE[swath.crop];
  const opening = CONDITIONING_CATALOGUE[swath.conditioning];
  const agent = swath.dryingAgent ? DRYING_AGENT.value : 1;
  const densityGM2 = dryMatterKgM2 * 1000;
  const stemEase = p.stemEase * (p.referenceStemMm / crop.stemMm) ** p.stemDiameterPower;
  const logDensity = Math.log(densityGM2 / REFERENCE_DENSITY_GM2);
  const wetness = soilWetness(swath.soil, p);
  const passedShare = Math.exp(-densityGM2 / p.interceptionGM2);
  const fresh = p.freshConductance * dryMatterKgM2 * agent;
  return {
    dryMatterKgM2,
    leafShare: crop.leafShare,
    leafMps: fresh * crop.leafShare * crop.leafEase * opening.leaf.value,
    stemMps: fresh * (1 - crop.leafShare) * stemEase * opening.stem.value,
    logDensity,
    fullDensity: Math.exp(-p.densityPower * logDensity),
    dayLightShare: 1 - passedShare * (1 - p.groundReturn * (1 - wetness)),
    nightLightShare: 1 - passedShare,
    rainShare: 1 - Math.exp(-densityGM2 / p.rainCatchGM2),
    layerLoss: p.layerDepth * (1 - Math.exp(-densityGM2 / p.layerGM2)),
    soilMps: p.soilConductance * wetness * Math.exp(-swath.stubbleCm / p.stubbleShelterCm),
    coarseStem: crop.coarseStem,
    stemSaturationDb: crop.coarseStem ? p.coarseSaturationDb : p.saturationDb,
    stemAbsorptionH: p.absorptionH * Math.max(1, crop.stemMm / p.referenceStemMm),
  };
}

/** Leaf and stem moisture at cutting that together make the given whole, dry basis. */
export function splitMoistureDb(crop: Crop, moistureWb: number): { leafDb: number; stemDb: number } {
  const whole = dryBasis(moistureWb);
  const stemDb = whole / (crop.leafShare * crop.leafToStemDb + 1 - crop.leafShare);
  return { leafDb: stemDb * crop.leafToStemDb, stemDb };
}

/** Mean tissue moisture of leaf and stem together, dry basis. */
export function meanDb(make: SwathMake, leafDb: number, stemDb: number): number {
  return make.leafShare * leafDb + (1 - make.leafShare) * stemDb;
}
