import { z } from "@hono/zod-openapi";
import type { DrydownRequest } from "../../model/drying/index.ts";
import {
  CONDITIONINGS,
  CROPS,
  ODDS_LIMITS,
  OPERATION_KINDS,
  SOIL_CLASSES,
  SWATH_LIMITS,
} from "../../model/drying/index.ts";
import { limited, listOf, record, seed, utcTime, whole } from "./parts.ts";
import { drydownWeather } from "./weather.ts";

export const READING_METHODS = [
  "oven",
  "microwave",
  "heated-tester",
  "air-fryer",
  "bale-probe",
  "windrow-probe",
  "hand-squeeze",
] as const;

export const swathSchema = record({
  crop: z.enum(CROPS),
  dryMatterTHa: limited(SWATH_LIMITS.dryMatterTHa),
  initialMoistureWb: limited(SWATH_LIMITS.initialMoistureWb),
  conditioning: z.enum(CONDITIONINGS),
  coveredFraction: limited(SWATH_LIMITS.coveredFraction),
  stubbleCm: limited(SWATH_LIMITS.stubbleCm),
  soil: z.enum(SOIL_CLASSES),
  dryingAgent: z.boolean().optional(),
  freeWaterMm: limited(SWATH_LIMITS.freeWaterMm).nullish(),
}).openapi("Swath");

export const operationSchema = record({
  kind: z.enum(OPERATION_KINDS),
  atUtc: utcTime,
  coveredFraction: limited(SWATH_LIMITS.coveredFraction).optional(),
}).openapi("Operation");

/** Its limit is the model's to check, so that all that is wrong with the readings is told at once. */
const measured = z
  .number()
  .openapi({ minimum: ODDS_LIMITS.readingWb.min, maximum: ODDS_LIMITS.readingWb.max });

/** Signs of the words for a place in the field. */
const MOST_PLACE_SIGNS = 200;

/** Which of value and interval is given, their limits and the interval's order are the model's to check. */
export const readingSchema = record({
  atUtc: utcTime,
  moistureWb: measured.optional(),
  range: z.tuple([measured, measured]).optional(),
  method: z.enum(READING_METHODS),
  addedSdWb: z
    .number()
    .optional()
    .describe("What this reading adds to its method's error, one standard deviation: a coarse scale.")
    .openapi({ minimum: ODDS_LIMITS.addedSdWb.min, maximum: ODDS_LIMITS.addedSdWb.max }),
  place: z
    .string()
    .max(MOST_PLACE_SIGNS)
    .optional()
    .describe("Where in the field. A reading that is there twice with the same place is refused."),
  confirmed: z
    .boolean()
    .optional()
    .describe("The person stands by it: an odd reading then counts without a second one."),
}).openapi("Reading");

export const learnedSchema = record({
  rateLnMean: limited(ODDS_LIMITS.rateLnMean),
  rateLnSd: limited(ODDS_LIMITS.rateLnSd),
  atUtc: utcTime,
}).openapi("LearnedRate");

/** How many draws the odds are made of; 0 = none. */
export const drawsSchema = whole(ODDS_LIMITS.draws);

export const drydownRequest = record({
  weather: drydownWeather,
  swath: swathSchema,
  cutUtc: utcTime,
  operations: listOf(operationSchema, 50).optional(),
  readings: listOf(readingSchema, 200).optional(),
  targetsWb: listOf(limited(SWATH_LIMITS.targetWb), 20).optional(),
  learned: learnedSchema.optional(),
  draws: drawsSchema.optional(),
  seed: seed.optional(),
}).openapi("DrydownRequest") satisfies z.ZodType<DrydownRequest>;
