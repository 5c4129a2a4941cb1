import { SWATH_LIMITS } from "../../model/drying/index.ts";
import { FEED_LIMITS } from "../../model/feed/limits.ts";
import {
  HARVEST_LIMITS,
  KEEPING_LIMITS,
  PRICE_LIMITS,
  STANDING_YIELD_LIMITS,
} from "../../model/harvest/index.ts";
import type { Limit } from "../../model/limits.ts";
import { limitToStep, type Quantity, toPage, type Units, unitName } from "../format/units.ts";
import type { TextField } from "./inputs.ts";

function inPercent({ min, max }: Limit): Limit {
  return { min: min * 100, max: max * 100, unit: "%" };
}

/**
 * From a walking mower to more than three mounted side by side. The model knows widths only as their share. Common
 * practice, no source.
 */
const MOWER_CUT_M: Limit = { min: 0.5, max: 30, unit: "m" };

const GRAIN_T_HA: Limit = { min: 0, max: 30, unit: "t/ha" };
const CHANCE_PCT: Limit = { min: 0, max: 100, unit: "%" };

/** The limits of the typed numbers, in the units of the page. All but the mower's cut come from the model. */
export const FIELD_LIMITS = {
  yieldTHa: SWATH_LIMITS.dryMatterTHa,
  balesPerHa: STANDING_YIELD_LIMITS.balesPerHa,
  baleKg: STANDING_YIELD_LIMITS.baleKg,
  baleMoisturePct: inPercent(STANDING_YIELD_LIMITS.baleMoistureWb),
  stripLengthM: STANDING_YIELD_LIMITS.stripLengthM,
  stripWidthM: STANDING_YIELD_LIMITS.stripWidthM,
  stripFreshKg: STANDING_YIELD_LIMITS.stripFreshKg,
  plantHeightCm: STANDING_YIELD_LIMITS.plantHeightCm,
  moisturePct: inPercent(SWATH_LIMITS.initialMoistureWb),
  stubbleCm: SWATH_LIMITS.stubbleCm,
  areaHa: HARVEST_LIMITS.areaHa,
  mowerCutM: MOWER_CUT_M,
  mowHaPerH: HARVEST_LIMITS.mowHaPerH,
  balerHaPerH: HARVEST_LIMITS.haPerH,
  chopperHaPerH: HARVEST_LIMITS.haPerH,
  tedHour: HARVEST_LIMITS.planHour,
  tedAfterH: HARVEST_LIMITS.planHours,
  rakeBeforeH: HARVEST_LIMITS.planHours,
  dryDownPointsPerDay: HARVEST_LIMITS.dryDownPointsPerDay,
  dailyNeedKgDm: HARVEST_LIMITS.dailyNeedKgDm,
  priceDryHay: PRICE_LIMITS.pricePerTDm,
  priceWrapped: PRICE_LIMITS.pricePerTDm,
  priceWilted: PRICE_LIMITS.pricePerTDm,
  priceDirect: PRICE_LIMITS.pricePerTDm,
  priceGreen: PRICE_LIMITS.pricePerTDm,
  priceGrazing: PRICE_LIMITS.pricePerTDm,
  mowCost: PRICE_LIMITS.rate,
  tedCost: PRICE_LIMITS.rate,
  rakeCost: PRICE_LIMITS.rate,
  chopCost: PRICE_LIMITS.rate,
  fillCost: PRICE_LIMITS.rate,
  grazeCost: PRICE_LIMITS.rate,
  baleCost: PRICE_LIMITS.rate,
  haulCost: PRICE_LIMITS.rate,
  wrapCost: PRICE_LIMITS.rate,
  filmCost: PRICE_LIMITS.rate,
  preservativeCost: PRICE_LIMITS.rate,
  labourCost: PRICE_LIMITS.rate,
  people: PRICE_LIMITS.people,
  baleDmKg: PRICE_LIMITS.baleDmKg,
  wrappedBaleDmKg: PRICE_LIMITS.baleDmKg,
  packingKgM3: KEEPING_LIMITS.densityKgM3,
  nitratePpm: FEED_LIMITS.contentPpm,
  prussicPpm: FEED_LIMITS.contentPpm,
  regrowthCm: HARVEST_LIMITS.regrowthCm,
  grainTHa: GRAIN_T_HA,
  grainPrice: PRICE_LIMITS.pricePerTDm,
  grainCost: PRICE_LIMITS.rate,
  grainChancePct: CHANCE_PCT,
  laterTHa: GRAIN_T_HA,
  laterPrice: PRICE_LIMITS.pricePerTDm,
  laterCost: PRICE_LIMITS.rate,
  waitCost: PRICE_LIMITS.rate,
  rainedCost: HARVEST_LIMITS.rainedOnPerHa,
} as const satisfies Partial<Record<TextField, Limit>>;

/** A limit of the model in the unit of the page, its edges rounded inwards so that what is asked for is accepted. */
export function limitOnPage(limit: Limit, quantity: Quantity | null, units: Units): Limit {
  if (quantity === null || units === "metric") return limit;
  const rounded = (value: number, towards: (x: number) => number) =>
    limitToStep(toPage(value, quantity, units), quantity, units, towards);
  return {
    ...limit,
    min: rounded(limit.min, Math.ceil),
    max: rounded(limit.max, Math.floor),
    unit: unitName(quantity, units),
  };
}

/** The typed numbers that have a limit of their own. */
export type LimitedField = keyof typeof FIELD_LIMITS;
