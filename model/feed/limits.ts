import type { Limit } from "../limits.ts";

/** What a feed check may be asked. */
export const FEED_LIMITS = {
  dmFrac: { min: 0, max: 1, unit: "(a fraction: 88 % is 0.88)", minExcluded: true },
  dmKg: { min: 0, max: 100, unit: "kg of dry matter a day" },
  contentPct: { min: 0, max: 100, unit: "%" },
  contentPpm: { min: 0, max: 1_000_000, unit: "ppm" },
  litres: { min: 0, max: 500, unit: "L a day" },
  waterPpm: { min: 0, max: 100_000, unit: "mg/L" },
  targetPpmNo3N: { min: 0, max: 10_000, unit: "ppm NO3-N of dry matter", minExcluded: true },
  feeds: { min: 1, max: 20, unit: "feeds" },
} as const satisfies Record<string, Limit>;

/** What a sampling plan may be asked. */
export const SAMPLING_LIMITS = {
  bales: { min: 0, max: 100_000, unit: "bales" },
  tonnes: { min: 0, max: 100_000, unit: "t" },
  parts: { min: 1, max: 200, unit: "" },
} as const satisfies Record<string, Limit>;
