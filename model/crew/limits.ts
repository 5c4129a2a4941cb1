import { type Limit, NAME_LENGTH } from "../limits.ts";

/** What a question about the crew may hold. */
export const CREW_LIMITS = {
  areaHa: { min: 0, max: 5000, unit: "ha", minExcluded: true },
  haPerH: { min: 0.05, max: 60, unit: "ha/h" },
  valuePerHa: { min: 0, max: 1_000_000, unit: "(money per hectare)" },
  priority: { min: 0, max: 100, unit: "(times the value)" },
  latenessPerDay: { min: 0, max: 10_000_000, unit: "(money a day)" },
  moveCostShare: { min: 0, max: 1, unit: "(share of the field's value, each visit)" },
  travelMin: { min: 0, max: 1440, unit: "min" },
  timeLimitS: { min: 0, max: 120, unit: "s" },
  horizonDays: { min: 1, max: 14, unit: "days" },
  readyShare: { min: 0.5, max: 1, unit: "(share of the members)" },
  roadKmH: { min: 5, max: 100, unit: "km/h" },
  revision: { min: 0, max: 1_000_000, unit: "" },
} as const satisfies Record<string, Limit>;

export const CREW_COUNTS = {
  sites: 60,
  fields: 80,
  machines: 60,
  people: 60,
  offSpans: 100,
  fixed: 400,
  travel: 2000,
  previousJobs: 800,
  idLength: 80,
  nameLength: NAME_LENGTH,
} as const;

export const SLOT_MINUTES = [60, 30] as const;
