import { type Limit, NAME_LENGTH } from "../limits.ts";

/** What an entry of the book may hold. Bounds are where a slip of the hand is likelier than a farm. */
export const BOOK_LIMITS = {
  measuredWb: { min: 0, max: 1, unit: "(wet-basis fraction; 18 % is 0.18)" },
  sequence: { min: 0, max: 2_000_000, unit: "changes" },
  intervalDays: { min: 0, max: 730, unit: "days" },
  widthM: { min: 0.3, max: 40, unit: "m" },
  speedKmH: { min: 0.5, max: 40, unit: "km/h" },
  efficiency: { min: 0.1, max: 1, unit: "(share of the working time)" },
  animals: { min: 1, max: 100_000, unit: "animals" },
  bales: { min: 0, max: 100_000, unit: "bales" },
  loads: { min: 0, max: 10_000, unit: "loads" },
  tonnes: { min: 0, max: 100_000, unit: "t" },
  grabs: { min: 1, max: 100, unit: "grabs" },
  grams: { min: 0, max: 100_000, unit: "g" },
  stackTempC: { min: -60, max: 400, unit: "°C" },
  phValue: { min: 2, max: 12, unit: "(pH)" },
  priority: { min: 0, max: 100, unit: "" },
  valuePerHa: { min: 0, max: 10_000_000, unit: "a ha, in your currency" },
  chance: { min: 0, max: 1, unit: "(share: 70 % is 0.7)" },
  lnRate: { min: -5, max: 5, unit: "(natural logarithm of a factor)" },
  lnRateSd: { min: 0, max: 5, unit: "(natural logarithm of a factor)" },
  latestDays: { min: 1, max: 366, unit: "days" },
} as const satisfies Record<string, Limit>;

/** Longest texts, characters, and longest lists. */
export const BOOK_COUNTS = {
  id: 64,
  name: NAME_LENGTH,
  line: 200,
  note: 4000,
  link: 8000,
  list: 100,
  heating: 2000,
  courseHours: 24 * 400,
  courseMembers: 400,
} as const;

/** A client's own name for an entry: letters, digits, point, underscore, hyphen; a random UUID fits. */
export const BOOK_ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/;
