import { coefficient } from "../../coefficient.ts";
import { requireRange } from "../../limits.ts";
import { KG_M3_PER_LB_FT3 } from "../losses/storage.ts";
import { DELIVERED_T_PER_H } from "./limits.ts";

const MM_PER_IN = 25.4;

/** Chop length and packing of chopped feed. */
export const CHOPPING = {
  lengthMm: coefficient(
    0.375 * MM_PER_IN,
    "mm",
    "published",
    "3/8-1/2 in for drought corn without a processor (University of Missouri, reported)",
    [0.375 * MM_PER_IN, 0.5 * MM_PER_IN],
  ),
  processedLengthMm: coefficient(
    0.75 * MM_PER_IN,
    "mm",
    "published",
    "3/4 in with a processor (trade sheet)",
    null,
  ),
  leastDensityKgM3: coefficient(
    15 * KG_M3_PER_LB_FT3,
    "kg DM/m³",
    "published",
    "15 lb/ft³ and more (Ag Proud, silage packing); 14-16 (Holmes & Muck 2002): 15 computes",
    [14 * KG_M3_PER_LB_FT3, 16 * KG_M3_PER_LB_FT3],
  ),
  layerCm: coefficient(
    6 * 2.54,
    "cm at most",
    "published",
    "layers of 6 in or less (Ag Proud, silage packing)",
    null,
  ),
  /** 800 lb of tractor for each short ton an hour: 0.4 t for each t an hour. */
  packingTPerTPerH: coefficient(
    800 / 2000,
    "t of tractor for each t/h delivered",
    "published",
    "800 lb × tons an hour (Ag Proud, silage packing)",
    null,
  ),
} as const;

/** Weight of packing tractors for what arrives, t. @example packingWeightT(60) // 24 */
export function packingWeightT(deliveredTPerH: number): number {
  const { min, max } = DELIVERED_T_PER_H;
  requireRange("packingWeightT", "deliveredTPerH", deliveredTPerH, min, max);
  return CHOPPING.packingTPerTPerH.value * deliveredTPerH;
}

/**
 * Water that a tonne needs to come to a wetter moisture: M (m2 - m1) / (1 - m2). Over a few points it is more than anyone hauls.
 *
 * @returns kg of water a tonne
 * @example waterToAddKgPerT(0.64, 0.65) // 28.6: 57 lb a short ton for one point
 */
export function waterToAddKgPerT(fromWb: number, toWb: number): number {
  requireRange("waterToAddKgPerT", "toWb", toWb, fromWb, 0.95);
  return (1000 * (toWb - fromWb)) / (1 - toWb);
}
