import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_CROPS } from "./prussic-crops.ts";
import { NITRATE_ACCUMULATORS } from "./records.ts";

/** What a laboratory is asked for before a crop is fed that is known to gather it; empty where stress alone gives cause. */
export function feedTests(crop: CropKey): readonly string[] {
  return [
    ...(NITRATE_ACCUMULATORS.includes(crop) ? ["nitrate"] : []),
    ...(PRUSSIC_CROPS.includes(crop) ? ["prussic acid"] : []),
  ];
}
