import type { CropKey } from "../../drying/keys.ts";

/** The sorghum family, which can hold prussic acid. Corn and millets are not the concern. */
export const PRUSSIC_CROPS: readonly CropKey[] = ["sudangrass", "sorghum-sudan", "forage-sorghum"];
