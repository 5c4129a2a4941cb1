import { z } from "@hono/zod-openapi";
import { OPERATION_KINDS } from "../../model/drying/index.ts";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { HAZARD_CODES, LOSS_STEPS, ROUTES } from "../../model/harvest/index.ts";
import { utcTime } from "./parts.ts";

const WINDOW_LIMITS = [
  "standing-too-wet",
  "rain",
  "air-too-humid",
  "over-dry",
  "dew",
  "soil-too-wet",
  "working-hours",
  "too-few-hours",
  "slow-drying",
  "forecast-too-short",
] as const;

const orNull = z.number().nullable();

const quantiles = z.strictObject({ p10: orNull, p25: orNull, p50: orNull, p75: orNull, p90: orNull });

const routeAnswer = z.strictObject({
  route: z.enum(ROUTES),
  operations: z.array(
    z.strictObject({ kind: z.enum(OPERATION_KINDS), atUtc: utcTime, coveredFraction: z.number() }),
  ),
  windows: z.array(
    z.strictObject({
      startUtc: utcTime,
      endUtc: utcTime,
      workHours: z.number(),
      chance: orNull,
      rainedOn: z.boolean(),
    }),
  ),
  limitedBy: z.enum(WINDOW_LIMITS).nullable(),
  elapsedHours: quantiles,
  opinionHours: z.strictObject({ earliest: orNull, latest: orNull }),
  neverShare: orNull,
  rainMm: z.strictObject({ mean: z.number(), p90: orNull }),
  lossPct: z.strictObject({ p10: orNull, p50: z.number(), p90: orNull }).nullable(),
  lossSteps: z.array(z.strictObject({ step: z.enum(LOSS_STEPS), pct: z.number() })).nullable(),
  valuePerHa: orNull,
  takenAtWb: orNull,
  takenShare: orNull,
  rank: z.number().int().nullable(),
  hazards: z.array(
    z.strictObject({
      code: z.enum(HAZARD_CODES),
      level: z.enum(["wait", "caution"]),
      sinceUtc: utcTime,
      untilUtc: utcTime,
    }),
  ),
  why: z.array(
    z.strictObject({ code: z.string(), atUtc: utcTime.nullable(), moistureWb: orNull, text: z.string() }),
  ),
});

export const windowsAnswer = z
  .strictObject({
    options: z.array(
      z.strictObject({
        id: z.string(),
        kind: z.enum(["swath", "standing"]),
        cutUtc: utcTime.nullable(),
        courseCutUtc: utcTime.nullable(),
        treatment: z.string().nullable(),
        routes: z.array(routeAnswer),
      }),
    ),
    best: z.strictObject({
      overall: z.strictObject({ optionId: z.string(), route: z.enum(ROUTES) }).nullable(),
      byRoute: z.partialRecord(z.enum(ROUTES), z.string().nullable()),
    }),
    counts: z.strictObject({ options: z.number().int(), members: z.number().int() }),
    hazards: z.array(
      z.strictObject({
        route: z.enum(ROUTES),
        code: z.enum(HAZARD_CODES),
        level: z.enum(["wait", "caution"]),
        startUtc: utcTime,
        endUtc: utcTime,
        sinceUtc: utcTime,
        text: z.string(),
        source: z.string(),
      }),
    ),
    usableUntilUtc: utcTime,
    assumptions: z.array(z.string()),
    warnings: z.array(z.string()),
  })
  .openapi("WindowsAnswer") satisfies z.ZodType<WindowsAnswer>;
