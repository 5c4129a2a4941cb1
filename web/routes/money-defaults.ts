import type { PackageKey, RouteKey } from "../../model/harvest/keys.ts";
import { DEFAULT_PRICES, DEFAULT_RATES } from "../../model/harvest/value/index.ts";
import type { Quantity } from "../format/units.ts";
import type { TextField } from "../state/inputs.ts";

/** Which field holds the price of a route. */
export const PRICE_FIELD = {
  "dry-hay": "priceDryHay",
  "wrapped-bales": "priceWrapped",
  "wilted-chop": "priceWilted",
  "direct-chop": "priceDirect",
  "green-chop": "priceGreen",
  grazing: "priceGrazing",
} as const satisfies Readonly<Record<RouteKey, TextField>>;

export function usualPrice(route: RouteKey): number {
  return DEFAULT_PRICES[route].value;
}

/** A rate field of the page with its label, its default and where that comes from. */
export interface RateField {
  readonly field: TextField;
  readonly label: string;
  readonly quantity: Quantity | null;
  /** What it is paid for, where that has no unit that changes. */
  readonly per: string;
  readonly usual: number;
  readonly source: string;
  /** Defaults of the other packages, where they have their own: "small square" and what it costs. */
  readonly also?: readonly (readonly [of: string, usual: number])[];
}

const one = (
  field: TextField,
  label: string,
  quantity: Quantity | null,
  per: string,
  { value, source }: { readonly value: number; readonly source: string },
): RateField => ({ field, label, quantity, per, usual: value, source });

type ByPackage = Readonly<Record<PackageKey, { readonly value: number; readonly source: string }>>;

/** Baling and hauling: the default of round bales, with those of the other bales beside it. */
function ofBales(field: TextField, label: string, rates: ByPackage): RateField {
  return {
    ...one(field, label, null, "a bale", rates.round),
    also: [
      ["small square", rates["small-square"].value],
      ["large square", rates["large-square"].value],
    ],
  };
}

export const RATE_FIELDS: readonly RateField[] = [
  one("mowCost", "Mowing", "perHa", "", DEFAULT_RATES.mowPerHa),
  one("tedCost", "Tedding, a pass", "perHa", "", DEFAULT_RATES.passPerHa.ted),
  one("rakeCost", "Raking or turning, a pass", "perHa", "", DEFAULT_RATES.passPerHa.rake),
  ofBales("baleCost", "Baling", DEFAULT_RATES.balePerBale),
  ofBales("haulCost", "Hauling bales", DEFAULT_RATES.haulPerBale),
  one("wrapCost", "Wrapping", null, "a bale", DEFAULT_RATES.wrapPerBale),
  one("filmCost", "Film, six layers", null, "a bale", DEFAULT_RATES.filmPerBale),
  one("chopCost", "Chopping", "perHa", "", DEFAULT_RATES.chopPerHa),
  one("fillCost", "Hauling, filling, packing", "perHa", "", DEFAULT_RATES.fillPerHa),
  one("grazeCost", "Fence, water, moving stock", "perHa", "", DEFAULT_RATES.grazePerHa),
  one("labourCost", "Own labour", null, "an hour", DEFAULT_RATES.labourPerH),
];
