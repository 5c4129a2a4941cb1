import { CREW_LIMITS } from "../model/crew/index.ts";
import {
  CONDITIONINGS,
  CROP_CATALOGUE,
  CROPS,
  OPERATION_KINDS,
  SOIL_CLASSES,
  SWATH_LIMITS,
} from "../model/drying/index.ts";
import {
  ANIMAL_CLASSES,
  ANIMAL_KG_LIMIT,
  CLASS_WORDS,
  FEED_LIMITS,
  HORSE_ADVICE,
  NITRATE_CLASSES,
  NITRATE_TABLES,
  type NitrateTable,
} from "../model/feed/index.ts";
import {
  DEFAULT_PRICES,
  DEFAULT_RATES,
  defaultBand,
  FEEDINGS,
  GRAZING_LOSS,
  HARVEST_DEFAULTS,
  HARVEST_LIMITS,
  HAY_STORES,
  HAZARD_CODES,
  KEEPING_LIMITS,
  LEAVE_LIMITS,
  PACKAGES,
  PRICE_LIMITS,
  ROUTE_CATALOGUE,
  ROUTES,
  STORES,
  USUAL_KEEPING,
  USUAL_PEOPLE,
  WAIT_PCT_PER_DAY,
} from "../model/harvest/index.ts";
import {
  COMMON_PRACTICE,
  celsiusOf,
  HEAT_SOURCE,
  HEAT_TABLE,
  routeWaits,
} from "../model/harvest/route-details/index.ts";
import { COLUMN_LIMITS, SITE_LIMITS, WIND_HEIGHT_LIMIT } from "../model/weather/index.ts";
import { allCoefficients } from "./coefficient-rooms.ts";

/** The list, or one null where a route knows no such choice. */
function orNone<T>(choices: readonly T[]): readonly (T | null)[] {
  return choices.length > 0 ? choices : [null];
}

/** The default band of every route, crop, package and store that has one. */
function allBands() {
  const { package: usualPackage, store: usualStore } = HARVEST_DEFAULTS;
  return ROUTES.flatMap((route) =>
    CROPS.flatMap((crop) =>
      orNone(ROUTE_CATALOGUE[route].packages).flatMap((pack) =>
        orNone(ROUTE_CATALOGUE[route].stores).flatMap((store) => {
          const band = defaultBand(route, crop, pack ?? usualPackage.value, store ?? usualStore.value);
          return band === null ? [] : [{ route, crop, package: pack, store, ...band }];
        }),
      ),
    ),
  );
}

/** Tables that stand beside the routes: what to wait for, what to do with heat, and common practice with its label. */
function routeTables() {
  return {
    waits: ROUTES.flatMap((route) =>
      (["alfalfa", "sorghum-sudan"] as const).map((crop) => ({
        route,
        crop,
        waits: routeWaits(route, crop),
      })),
    ),
    heating: HEAT_TABLE.map(({ fromF, ...step }) => ({ fromF, fromC: celsiusOf(fromF), ...step })),
    heatingSource: HEAT_SOURCE,
    commonPractice: COMMON_PRACTICE,
  };
}

/** The last band of a table has no upper edge, and JSON no infinity. */
function openEnded({ bands, ...table }: NitrateTable) {
  return {
    ...table,
    bands: bands.map((band) => ({ ...band, upTo: Number.isFinite(band.upTo) ? band.upTo : null })),
  };
}

/** What /api/model answers: the words, limits, bands and coefficients that the model computes with. */
export function modelCatalogue(modelVersion: string) {
  return {
    modelVersion,
    crops: CROPS.map((key) => ({ key, ...CROP_CATALOGUE[key] })),
    conditionings: CONDITIONINGS,
    soils: SOIL_CLASSES,
    operations: OPERATION_KINDS,
    packages: PACKAGES,
    stores: STORES,
    routes: ROUTES.map((key) => ({ key, ...ROUTE_CATALOGUE[key] })),
    hayStores: HAY_STORES,
    feedings: FEEDINGS,
    grazings: Object.keys(GRAZING_LOSS),
    hazards: HAZARD_CODES,
    defaults: {
      ...HARVEST_DEFAULTS,
      prices: DEFAULT_PRICES,
      rates: { ...DEFAULT_RATES, people: USUAL_PEOPLE, waitPctPerDay: WAIT_PCT_PER_DAY },
      stores: USUAL_KEEPING,
    },
    routeTables: routeTables(),
    bands: allBands(),
    feed: {
      animals: ANIMAL_CLASSES,
      classes: NITRATE_CLASSES.map((key) => ({ key, words: CLASS_WORDS[key] })),
      tables: NITRATE_TABLES.map(openEnded),
      // Read beside whatever table is chosen, never one to choose.
      horses: openEnded(HORSE_ADVICE),
    },
    limits: {
      feed: { ...FEED_LIMITS, animalKg: ANIMAL_KG_LIMIT },
      site: { ...SITE_LIMITS, windHeightM: WIND_HEIGHT_LIMIT },
      weather: COLUMN_LIMITS,
      swath: SWATH_LIMITS,
      harvest: HARVEST_LIMITS,
      crew: CREW_LIMITS,
      prices: PRICE_LIMITS,
      leave: LEAVE_LIMITS,
      stores: KEEPING_LIMITS,
    },
    coefficients: allCoefficients(),
  };
}
