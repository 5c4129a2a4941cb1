import { type Coefficient, coefficient } from "../../coefficient.ts";
import type { OperationKind } from "../../drying/keys.ts";
import type { PackageKey, RouteKey } from "../keys.ts";

/**
 * Prices and rates in whatever currency the user has. The defaults are in none: bare numbers of published examples, hay at
 * 220 a tonne of dry matter, and the other routes set beside it. They are there to be replaced.
 */

const TO_HAY = "in no currency: hay at 220 a tonne of dry matter; set your own";
const HAY_EXAMPLE =
  "the measure: 220 USD a t of hay in an example of Undersander (rapid drying reduces respiration losses), taken over as a bare number";

function price(value: number, why: string, lo: number, hi: number): Coefficient {
  return coefficient(value, "a t of dry matter", "assumed", `${why}; ${TO_HAY}`, [lo, hi]);
}

/** What a tonne of dry matter that is fed out is worth, by route. */
export const DEFAULT_PRICES: Readonly<Record<RouteKey, Coefficient>> = {
  "dry-hay": price(220, HAY_EXAMPLE, 80, 400),
  "wrapped-bales": price(210, "feeds as well, sells less easily", 80, 400),
  "wilted-chop": price(200, "feeds as well, hardly sells", 80, 400),
  "direct-chop": price(190, "as wilted, wetter to haul", 80, 400),
  "green-chop": price(165, "no store, must be fed the same day", 60, 300),
  grazing: price(155, "saves the machines, not the trampling", 60, 300),
};

export interface Rates {
  /** A pass over the field, per ha: machine, fuel and driver where they are hired together. */
  readonly mowPerHa: number;
  readonly passPerHa: Readonly<Record<OperationKind, number>>;
  readonly chopPerHa: number;
  /** Hauling, filling and packing of chopped feed, per ha. */
  readonly fillPerHa: number;
  readonly balePerBale: Readonly<Record<PackageKey, number>>;
  readonly haulPerBale: Readonly<Record<PackageKey, number>>;
  readonly wrapPerBale: number;
  /** Film of one bale at six layers. */
  readonly filmPerBale: number;
  readonly preservativePerKg: number;
  /** Own labour on top of hired work, per hour and person. */
  readonly labourPerH: number;
  /** Fence, water and moving stock, per ha grazed. */
  readonly grazePerHa: number;
}

/** The rates that are one number each. */
export const FLAT_RATES = [
  "mowPerHa",
  "chopPerHa",
  "fillPerHa",
  "wrapPerBale",
  "filmPerBale",
  "preservativePerKg",
  "labourPerH",
  "grazePerHa",
] as const satisfies readonly (keyof Rates)[];
export type FlatRate = (typeof FLAT_RATES)[number];

const CONTRACTORS = "United Kingdom contractors' survey, about 2020, GBP/ha, taken over as a bare number";
const INDIANA = "Purdue custom rates 2023, USD a bale, taken over as a bare number";

function rate(value: number, unit: string, source: string, lo: number, hi: number): Coefficient {
  return coefficient(value, unit, "assumed", `${source}; in no currency, set your own`, [lo, hi]);
}

/** Each default rate as a record, under its place in `Rates`. */
export const DEFAULT_RATES = {
  mowPerHa: rate(30.3, "a ha", CONTRACTORS, 20, 60),
  passPerHa: {
    ted: rate(17.55, "a ha", CONTRACTORS, 10, 35),
    rake: rate(17.98, "a ha", CONTRACTORS, 10, 35),
    invert: rate(17.98, "a ha", "as raking", 10, 35),
  },
  chopPerHa: rate(64.69, "a ha", CONTRACTORS, 40, 150),
  fillPerHa: rate(
    173.59 - 30.3 - 17.98 - 64.69,
    "a ha",
    `full clamp service 173.59 less mowing, raking and chopping: ${CONTRACTORS}`,
    30,
    150,
  ),
  balePerBale: {
    "small-square": rate(1.28, "a bale", INDIANA, 0.8, 2.5),
    round: rate(12.7, "a bale", INDIANA, 8, 18),
    "large-square": rate(
      13.81,
      "a bale",
      "no row of its own: as a large round bale, Purdue custom rates 2023",
      10,
      22,
    ),
    "stalk-bale": rate(12.7, "a bale", "as a round bale", 8, 20),
  },
  haulPerBale: {
    "small-square": rate(0.47, "a bale", "a tenth of a large bale's", 0.2, 1.5),
    round: rate(4.67, "a bale", INDIANA, 2, 8),
    "large-square": rate(4.67, "a bale", INDIANA, 2, 8),
    "stalk-bale": rate(4.67, "a bale", INDIANA, 2, 8),
  },
  wrapPerBale: rate(3.4, "a bale", INDIANA, 2, 8),
  filmPerBale: rate(2.4, "a bale", "about 2.4 USD (University of Minnesota extension)", 2, 6),
  preservativePerKg: rate(3, "a kg", "no source", 1.5, 6),
  labourPerH: rate(20, "an hour", "no source", 5, 50),
  grazePerHa: rate(10, "a ha", "no source", 0, 60),
} as const;

/** A tree of records as the plain numbers that compute, with the user's own in their place. */
function filled(records: object, own: object): object {
  return Object.fromEntries(
    Object.entries(records).map(([key, one]: [string, object]) => {
      const given: unknown = Reflect.get(own, key);
      if ("validRange" in one) return [key, typeof given === "number" ? given : (one as Coefficient).value];
      return [key, filled(one, typeof given === "object" && given !== null ? given : {})];
    }),
  );
}

const USUAL_RATES = filled(DEFAULT_RATES, {}) as Rates;

/** The user's own rates: each may be missing, in the tables of passes and packages too. */
export type OwnRates = {
  readonly [K in keyof Rates]?:
    | (Rates[K] extends number ? number : { readonly [P in keyof Rates[K]]?: number | undefined })
    | undefined;
};

/** Rates already filled in, by what was given: a saving alone, a board asks for the same ones thousands of times. */
const FILLED = new WeakMap<OwnRates, Rates>();

/** The rates in use: the user's where given, else the defaults. */
export function ratesWith(own?: OwnRates): Rates {
  if (own === undefined) return USUAL_RATES;
  const known = FILLED.get(own);
  if (known) return known;
  const rates = filled(DEFAULT_RATES, own) as Rates;
  FILLED.set(own, rates);
  return rates;
}

/** The price of a route: the user's where given, else the default. */
export function priceOf(route: RouteKey, own: Partial<Record<RouteKey, number | undefined>> = {}): number {
  return own[route] ?? DEFAULT_PRICES[route].value;
}
