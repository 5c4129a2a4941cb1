import type { Limit } from "../limits.ts";

/** What a swath can be. The bounds are where the model stays meaningful, not where it was measured. */
export const SWATH_LIMITS = {
  dryMatterTHa: { min: 0, max: 30, unit: "t/ha", minExcluded: true },
  initialMoistureWb: { min: 0.05, max: 0.92, unit: "(wet-basis fraction; 18 % is 0.18)" },
  coveredFraction: { min: 0.05, max: 1, unit: "(share of the cut width)" },
  stubbleCm: { min: 0, max: 100, unit: "cm" },
  freeWaterMm: { min: 0, max: 3, unit: "mm" },
  targetWb: { min: 0.05, max: 0.9, unit: "(wet-basis fraction; 18 % is 0.18)" },
} as const satisfies Record<string, Limit>;

/** What the odds are asked with. */
export const ODDS_LIMITS = {
  draws: { min: 0, max: 1000, unit: "draws" },
  rateLnMean: { min: -2, max: 2, unit: "(ln of the rate factor)" },
  rateLnSd: { min: 0, max: 2, unit: "(ln of the rate factor)" },
  /** What a swath can hold: a reading outside it is of a charred sample, of one that was not heated, or a slip. */
  readingWb: SWATH_LIMITS.initialMoistureWb,
  addedSdWb: { min: 0, max: 0.2, unit: "(wet-basis fraction; 1 point is 0.01)" },
  shareWb: { min: 0, max: 1, unit: "(wet-basis fraction; 18 % is 0.18)" },
} as const satisfies Record<string, Limit>;
