import { z } from "@hono/zod-openapi";
import { DRYDOWN_WARNING_CODES, type DrydownAnswer } from "../../model/drying/index.ts";
import { READING_METHODS } from "./drydown.ts";
import { utcTime } from "./parts.ts";

const numbers = z.array(z.number());
const times = z.array(utcTime);

const hoursAnswer = z.strictObject({
  startUtc: times,
  moistureWb: numbers,
  leafMoistureWb: numbers,
  stemMoistureWb: numbers,
  equilibriumWb: numbers,
  dryMatterGM2: numbers,
  coveredFraction: numbers,
  freeWaterMm: numbers,
  rainMm: numbers,
  interceptedMm: numbers,
  drainedMm: numbers,
  dewMm: numbers,
  vapourUptakeMm: numbers,
  absorbedMm: numbers,
  evaporationMm: numbers,
  operationMm: numbers,
});

const targetAnswer = z.discriminatedUnion("reached", [
  z.strictObject({
    targetWb: z.number(),
    reached: z.literal(true),
    reachedUtc: utcTime,
    elapsedHours: z.number(),
    dryingHours: z.number(),
    alreadyBelow: z.exactOptional(z.literal(true)),
  }),
  z.strictObject({
    targetWb: z.number(),
    reached: z.literal(false),
    limitedBy: z.enum(["rain", "air-too-humid", "slow-drying", "forecast-too-short"]),
    lowestWb: z.number(),
  }),
]);

const orNull = z.number().nullable();
const share = z.number().min(0).max(1);

export const quantilesOrNull = z.strictObject({
  p10: orNull,
  p25: orNull,
  p50: orNull,
  p75: orNull,
  p90: orNull,
});

const learnedAnswer = z.strictObject({ rateLnMean: z.number(), rateLnSd: z.number(), atUtc: utcTime });

const readingsAnswer = z.strictObject({
  readings: z.array(
    z.strictObject({
      atUtc: utcTime,
      method: z.enum(READING_METHODS),
      observedWb: z.strictObject({ low: z.number(), high: z.number() }),
      used: z.boolean(),
      verdict: z.enum(["fits", "confirmed", "borne-out", "questioned", "same-again"]),
      sdWb: z.number(),
      expectedWb: z.strictObject({ p10: z.number(), p50: z.number(), p90: z.number() }),
      nearestSigmas: z.number(),
      asFarChance: share,
      effectiveSize: z.number(),
      text: z.string(),
    }),
  ),
  effectiveSize: z.number(),
  of: z.number().int(),
  collapsed: z.boolean(),
  countedShare: z.number(),
  fewAgree: z.string().nullable(),
  changes: z.array(
    z.strictObject({ targetWb: z.number(), beforeHours: orNull, afterHours: orNull, text: z.string() }),
  ),
  learned: learnedAnswer.nullable(),
  beforeWb: numbers,
  asIssued: z.array(
    z.strictObject({
      atUtc: utcTime,
      bandsWb: z.strictObject({
        p10: z.number(),
        p25: z.number(),
        p50: z.number(),
        p75: z.number(),
        p90: z.number(),
      }),
      targets: z.array(z.strictObject({ targetWb: z.number(), chance: share })),
    }),
  ),
});

const courseOdds = z.strictObject({
  draws: z.number().int(),
  seed: z.number().int(),
  weather: z.enum(["members", "widened", "known"]),
  members: z.number().int(),
  leftOut: z.number().int(),
  text: z.string(),
  moistureWb: z.strictObject({ p10: numbers, p25: numbers, p50: numbers, p75: numbers, p90: numbers }),
  targets: z.array(
    z.strictObject({
      targetWb: z.number(),
      chance: share,
      neverShare: share,
      elapsedHours: quantilesOrNull,
    }),
  ),
  rate: z.strictObject({ lnMean: z.number(), lnSd: z.number() }),
  readings: readingsAnswer.nullable(),
});

export const drydownAnswer = z
  .strictObject({
    modelVersion: z.string(),
    areaBasis: z.literal("covered-m2"),
    usableUntilUtc: utcTime,
    hours: hoursAnswer,
    targets: z.array(targetAnswer),
    secondOpinions: z.array(
      z.strictObject({
        name: z.string(),
        source: z.string(),
        hours: z.strictObject({ startUtc: times, moistureWb: numbers }),
        targets: z.array(targetAnswer),
      }),
    ),
    odds: z.exactOptional(courseOdds),
    missingHours: z.number().int(),
    assumptions: z.array(z.string()),
    warnings: z.array(z.string()),
    warningCodes: z.array(z.enum(DRYDOWN_WARNING_CODES)),
  })
  .openapi("DrydownAnswer") satisfies z.ZodType<DrydownAnswer>;
