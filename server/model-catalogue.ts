import type { Coefficient } from "../model/coefficient.ts";
import { cropRecords } from "../model/drying/crops.ts";
import {
  CONDITIONING_CATALOGUE,
  CONDITIONINGS,
  CROP_CATALOGUE,
  CROPS,
  DRYING,
  DRYING_AGENT,
  OPERATION_KINDS,
  SOIL_CLASSES,
  SWATH_LIMITS,
} from "../model/drying/index.ts";
import { ISOTHERM } from "../model/drying/isotherm.ts";
import { COVER_AFTER, OPERATION_LOSS } from "../model/drying/operations.ts";
import { EVAPORATION_SUM, ROTZ_CHEN_1985, UNCONDITIONED } from "../model/drying/second-opinions.ts";
import {
  ANIMAL_CLASSES,
  ANIMAL_KG_LIMIT,
  CLASS_WORDS,
  ENSILING_CREDIT,
  FEED_LIMITS,
  NITRATE_CLASSES,
  NITRATE_TABLES,
  PRUSSIC_WAIT_WEEKS,
  SAMPLING,
  WAIT_WEEKS,
} from "../model/feed/index.ts";
import {
  BALERS,
  defaultBand,
  HARVEST_DEFAULTS,
  HARVEST_LIMITS,
  MOWER,
  PACKAGES,
  ROUTE_CATALOGUE,
  ROUTE_MACHINES,
  ROUTES,
  STORES,
} from "../model/harvest/index.ts";
import { COLUMN_LIMITS, SITE_LIMITS, WIND_HEIGHT_LIMIT } from "../model/weather/index.ts";

function isCoefficient(value: object): value is Coefficient {
  return "value" in value && "unit" in value && "origin" in value && "source" in value;
}

/** Every coefficient found in a tree of records, under its dotted name. */
export function collectCoefficients(tree: object, prefix: string): Record<string, Coefficient> {
  const found: Record<string, Coefficient> = {};
  for (const [key, value] of Object.entries(tree)) {
    if (typeof value !== "object" || value === null) continue;
    const name = `${prefix}.${key}`;
    if (isCoefficient(value)) found[name] = value;
    else Object.assign(found, collectCoefficients(value, name));
  }
  return found;
}

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
    defaults: HARVEST_DEFAULTS,
    bands: allBands(),
    feed: {
      animals: ANIMAL_CLASSES,
      classes: NITRATE_CLASSES.map((key) => ({ key, words: CLASS_WORDS[key] })),
      tables: NITRATE_TABLES.map(({ bands, ...table }) => ({
        ...table,
        // The last band of a table has no upper edge, and JSON no infinity.
        bands: bands.map((band) => ({ ...band, upTo: Number.isFinite(band.upTo) ? band.upTo : null })),
      })),
    },
    limits: {
      feed: { ...FEED_LIMITS, animalKg: ANIMAL_KG_LIMIT },
      site: { ...SITE_LIMITS, windHeightM: WIND_HEIGHT_LIMIT },
      weather: COLUMN_LIMITS,
      swath: SWATH_LIMITS,
      harvest: HARVEST_LIMITS,
    },
    coefficients: {
      ...collectCoefficients(DRYING, "drying"),
      ...collectCoefficients(CONDITIONING_CATALOGUE, "conditioning"),
      ...collectCoefficients({ factor: DRYING_AGENT }, "dryingAgent"),
      ...collectCoefficients(ISOTHERM, "isotherm"),
      ...collectCoefficients(Object.fromEntries(CROPS.map((key) => [key, cropRecords(key)])), "crop"),
      ...collectCoefficients(
        { rotzChen1985: ROTZ_CHEN_1985, evaporationSum: EVAPORATION_SUM, unconditioned: UNCONDITIONED },
        "secondOpinions",
      ),
      ...collectCoefficients(COVER_AFTER, "coverAfter"),
      ...collectCoefficients(OPERATION_LOSS, "operationLoss"),
      ...collectCoefficients(
        {
          ensilingCredit: ENSILING_CREDIT,
          waitWeeks: WAIT_WEEKS,
          prussicWaitWeeks: PRUSSIC_WAIT_WEEKS,
          sampling: SAMPLING,
        },
        "feed",
      ),
      ...collectCoefficients({ mower: MOWER, balers: BALERS, routes: ROUTE_MACHINES }, "machines"),
    },
  };
}
