import { DUE } from "../model/book/index.ts";
import type { Coefficient } from "../model/coefficient.ts";
import { CREW_DEFAULTS } from "../model/crew/index.ts";
import { cropRecords } from "../model/drying/crops.ts";
import { CONDITIONING_CATALOGUE, CROPS, DRYING, DRYING_AGENT } from "../model/drying/index.ts";
import { ISOTHERM } from "../model/drying/isotherm.ts";
import { COVER_AFTER, OPERATION_LOSS } from "../model/drying/operations.ts";
import { EVAPORATION_SUM, ROTZ_CHEN_1985, UNCONDITIONED } from "../model/drying/second-opinions.ts";
import {
  CALF_TRIAL,
  ENSILING_CREDIT,
  MOISTURE_TEST,
  PRUSSIC_WAIT_WEEKS,
  SAMPLING,
  WAIT_WEEKS,
} from "../model/feed/index.ts";
import * as hazards from "../model/harvest/hazards/index.ts";
import { BALERS, BARREN_CORN, MOWER, PASS_MACHINES, ROUTE_MACHINES } from "../model/harvest/index.ts";
import * as losses from "../model/harvest/losses/index.ts";
import * as details from "../model/harvest/route-details/index.ts";
import * as value from "../model/harvest/value/index.ts";
import * as odds from "../model/odds/index.ts";
import { SOIL_BUCKET } from "../model/weather/soil-wetness.ts";

/** Every coefficient that the model computes with, by room: what /api/model tells of them. */

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

/** Under each room's name the trees that hold its records; a face of a room is a tree too. */
const ROOMS: Readonly<Record<string, object>> = {
  drying: DRYING,
  conditioning: CONDITIONING_CATALOGUE,
  dryingAgent: { factor: DRYING_AGENT },
  isotherm: ISOTHERM,
  crop: Object.fromEntries(CROPS.map((key) => [key, cropRecords(key)])),
  secondOpinions: {
    rotzChen1985: ROTZ_CHEN_1985,
    evaporationSum: EVAPORATION_SUM,
    unconditioned: UNCONDITIONED,
  },
  coverAfter: COVER_AFTER,
  operationLoss: OPERATION_LOSS,
  feed: {
    ensilingCredit: ENSILING_CREDIT,
    waitWeeks: WAIT_WEEKS,
    calfTrial: CALF_TRIAL,
    prussicWaitWeeks: PRUSSIC_WAIT_WEEKS,
    sampling: SAMPLING,
    moistureTest: MOISTURE_TEST,
  },
  barrenCorn: BARREN_CORN,
  soilBucket: SOIL_BUCKET,
  machines: { mower: MOWER, passes: PASS_MACHINES, balers: BALERS, routes: ROUTE_MACHINES },
  crew: CREW_DEFAULTS,
  due: DUE,
  losses,
  value,
  hazards,
  routeDetails: details,
  odds,
};

export function allCoefficients(): Record<string, Coefficient> {
  return Object.assign(
    {},
    ...Object.entries(ROOMS).map(([room, tree]) => collectCoefficients(tree, room)),
  ) as Record<string, Coefficient>;
}
