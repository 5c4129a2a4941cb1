import { z } from "@hono/zod-openapi";
import type { DrydownAnswer } from "../../model/drying/index.ts";
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
    missingHours: z.number().int(),
    assumptions: z.array(z.string()),
    warnings: z.array(z.string()),
  })
  .openapi("DrydownAnswer") satisfies z.ZodType<DrydownAnswer>;
