import { z } from "@hono/zod-openapi";
import {
  DEFAULT_RATES,
  FEEDINGS,
  GRAZING_LOSS,
  HARVEST_LIMITS,
  HAY_STORES,
  KEEPING_LIMITS,
  LEAVE_LIMITS,
  PACKAGES,
  PRICE_LIMITS,
  STORES,
} from "../../model/harvest/index.ts";
import { limited, record } from "./parts.ts";

/** Prices, stores and rates of a board: in any currency, each with a stated default. */

const price = limited(PRICE_LIMITS.pricePerTDm).optional();

export const pricesSchema = record({
  "dry-hay": price,
  "wrapped-bales": price,
  "wilted-chop": price,
  "direct-chop": price,
  "green-chop": price,
  grazing: price,
}).openapi("Prices");

const feeding = z.enum(FEEDINGS).optional();
const fixedChamber = z.boolean().optional();
const grazingKeys = Object.keys(GRAZING_LOSS) as (keyof typeof GRAZING_LOSS)[];

const hay = z.union([
  z.enum(HAY_STORES),
  record({ store: z.enum(HAY_STORES).optional(), feeding, fixedChamber }),
]);
const chopped = z.union([
  z.enum(STORES),
  record({
    store: z.enum(STORES).optional(),
    covered: z.boolean().optional(),
    densityKgM3: limited(KEEPING_LIMITS.densityKgM3).optional(),
    feeding,
  }),
]);

export const storesSchema = record({
  "dry-hay": hay.optional(),
  "wrapped-bales": record({ feeding, fixedChamber }).optional(),
  "wilted-chop": chopped.optional(),
  "direct-chop": chopped.optional(),
  "green-chop": record({ feeding }).optional(),
  grazing: record({ grazing: z.enum(grazingKeys).optional() }).optional(),
}).openapi("Stores");

const rate = limited(PRICE_LIMITS.rate).optional();

/** One optional rate for each key. */
function rates<K extends string>(keys: readonly K[]) {
  return record(Object.fromEntries(keys.map((key) => [key, rate])) as Record<K, typeof rate>).optional();
}

const passes = Object.keys(DEFAULT_RATES.passPerHa) as (keyof typeof DEFAULT_RATES.passPerHa)[];

export const ratesSchema = record({
  mowPerHa: rate,
  passPerHa: rates(passes),
  chopPerHa: rate,
  fillPerHa: rate,
  balePerBale: rates(PACKAGES),
  haulPerBale: rates(PACKAGES),
  wrapPerBale: rate,
  filmPerBale: rate,
  preservativePerKg: rate,
  labourPerH: rate,
  grazePerHa: rate,
  people: limited(PRICE_LIMITS.people).optional(),
  waitPctPerDay: limited(PRICE_LIMITS.waitPctPerDay).optional(),
  baleDmKg: limited(PRICE_LIMITS.baleDmKg).optional(),
  wrappedBaleDmKg: limited(PRICE_LIMITS.baleDmKg).optional(),
}).openapi("Rates");

export const hazardsSchema = record({
  drought: z.boolean().nullish(),
  regrowthCm: limited(HARVEST_LIMITS.regrowthCm).nullish(),
}).openapi("HazardQuestion");

export const leaveSchema = record({
  grainTHa: limited(LEAVE_LIMITS.grainTHa).optional(),
  grainPricePerT: limited(LEAVE_LIMITS.grainPricePerT).optional(),
  grainCostPerHa: limited(LEAVE_LIMITS.grainCostPerHa).optional(),
  grainChance: limited(LEAVE_LIMITS.grainChance).optional(),
  laterForageTHa: limited(LEAVE_LIMITS.laterForageTHa).optional(),
  laterForagePricePerT: limited(LEAVE_LIMITS.laterForagePricePerT).optional(),
  laterForageCostPerHa: limited(LEAVE_LIMITS.laterForageCostPerHa).optional(),
}).openapi("Leave");
