import { z } from "@hono/zod-openapi";
import { ODDS_LIMITS } from "../../model/drying/index.ts";
import { ROUTES } from "../../model/harvest/index.ts";
import type { RecordAnswer, RecordRequest } from "../../model/odds/index.ts";
import { listOf, record, seed, utcTime } from "./parts.ts";

const MOST_MET = 20_000;
/** Held to their limits by the model, which names everything that is wrong at once. */
const share = z.number().openapi({ minimum: ODDS_LIMITS.shareWb.min, maximum: ODDS_LIMITS.shareWb.max });

const met = {
  issuedUtc: utcTime,
  atUtc: utcTime,
  route: z
    .string()
    .nullish()
    .openapi({ enum: [...ROUTES, null] }),
  timeZone: z.string().optional(),
};

export const recordRequest = record({
  timeZone: z.string(),
  moisture: listOf(
    record({
      ...met,
      membersWb: listOf(share, 1000).optional(),
      bandsWb: record({
        p10: share,
        p25: share,
        p50: share,
        p75: share,
        p90: share,
      }).optional(),
      observedWb: share,
    }),
    MOST_MET,
  ).optional(),
  chances: listOf(record({ ...met, chance: share, came: z.boolean() }), MOST_MET).optional(),
  seed: seed.optional(),
}).openapi("RecordRequest") satisfies z.ZodType<RecordRequest>;

const score = z.discriminatedUnion("enough", [
  z.strictObject({
    enough: z.literal(false),
    days: z.number().int(),
    scores: z.number().int(),
    text: z.string(),
  }),
  z.strictObject({
    enough: z.literal(true),
    days: z.number().int(),
    scores: z.number().int(),
    mean: z.number(),
    p5: z.number(),
    p95: z.number(),
  }),
]);

const orNull = z.number().nullable();
const group = {
  route: z.string().nullable(),
  leadH: z.tuple([z.number(), z.number()]).readonly(),
};

export const recordResult = z
  .strictObject({
    counts: z.strictObject({
      moisture: z.number().int(),
      chances: z.number().int(),
      days: z.number().int(),
    }),
    moisture: z.array(
      z.strictObject({ ...group, bias: score, absoluteError: score, crps: score, inside80: score }),
    ),
    chances: z.array(
      z.strictObject({
        ...group,
        brier: score,
        parts: z
          .strictObject({
            brier: z.number(),
            reliability: z.number(),
            resolution: z.number(),
            uncertainty: z.number(),
            withinBins: z.number(),
            skill: orNull,
          })
          .nullable(),
        bins: z
          .array(
            z.strictObject({
              from: z.number(),
              to: z.number(),
              count: z.number().int(),
              meanChance: orNull,
              observedShare: orNull,
              days: z.number().int(),
              right: z.tuple([z.number(), z.number()]).readonly().nullable(),
            }),
          )
          .nullable(),
      }),
    ),
    notes: z.array(z.string()),
  })
  .openapi("RecordAnswer") satisfies z.ZodType<RecordAnswer>;
