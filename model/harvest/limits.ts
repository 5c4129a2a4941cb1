import type { Limit } from "../limits.ts";

/** What a question about windows may hold. Bounds are where the answer stays meaningful. */
export const HARVEST_LIMITS = {
  areaHa: { min: 0, max: 5000, unit: "ha", minExcluded: true },
  haPerH: { min: 0.05, max: 60, unit: "ha/h" },
  mowHaPerH: { min: 0.05, max: 60, unit: "ha/h" },
  cutHour: { min: 0, max: 23, unit: "(local hour of the day)" },
  bandWb: { min: 0.02, max: 0.92, unit: "(wet-basis fraction; 18 % is 0.18)" },
  standingMoistureWb: { min: 0.05, max: 0.92, unit: "(wet-basis fraction; 80 % is 0.8)" },
  dryDownPointsPerDay: { min: 0, max: 5, unit: "points of moisture a day" },
  dailyNeedKgDm: { min: 0, max: 1_000_000, unit: "kg of dry matter a day", minExcluded: true },
  planHour: { min: 0, max: 23, unit: "(local hour of the day)" },
  planHours: { min: 0, max: 240, unit: "h" },
  maxRainMm24h: { min: 0, max: 200, unit: "mm" },
  perHa: { min: 0, max: 10_000_000, unit: "a ha, in your currency" },
  /** Of nothing there is no share: a cost that waiting is held against. */
  rainedOnPerHa: { min: 0, max: 10_000_000, unit: "a ha, in your currency", minExcluded: true },
  regrowthCm: { min: 0, max: 500, unit: "cm" },
  coveredFraction: { min: 0.05, max: 1, unit: "(share of the cut width)" },
} as const satisfies Record<string, Limit>;

/** What prices and rates may be. Bounds are where a slip of the hand is likelier than a price. */
export const PRICE_LIMITS = {
  pricePerTDm: { min: 0, max: 10_000_000, unit: "a t of dry matter" },
  rate: { min: 0, max: 10_000_000, unit: "in your currency" },
  people: { min: 0, max: 50, unit: "people" },
  waitPctPerDay: { min: 0, max: 10, unit: "% of the feed's worth a day" },
  baleDmKg: { min: 1, max: 2000, unit: "kg of dry matter a bale" },
} as const satisfies Record<string, Limit>;

/** What of the keeping of a feed is a number, and between what it may lie. */
export const KEEPING_LIMITS = {
  densityKgM3: { min: 80, max: 500, unit: "kg of dry matter a m³" },
} as const satisfies Record<string, Limit>;

/** How many entries a list of the request may have. */
export const HARVEST_COUNTS = {
  cutHours: 24,
  treatments: 12,
  planSteps: 12,
  treatmentIdLength: 60,
  madeCuts: 6,
  readCuts: 4,
  readings: 40,
} as const;

/** "HH:MM" on the farm's clock; the end of the working day may be 24:00. */
export const CLOCK_READING = /^([01]\d|2[0-3]):([0-5]\d)$/;
export const CLOCK_READING_OR_24 = /^(?:([01]\d|2[0-3]):([0-5]\d)|24:00)$/;
