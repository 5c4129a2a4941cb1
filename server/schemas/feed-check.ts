import { z } from "@hono/zod-openapi";
import {
  ANIMAL_CLASSES,
  ANIMAL_KG_LIMIT,
  BASES,
  CONTENT_UNITS,
  FEED_LIMITS,
  type FeedCheckAnswer,
  type FeedCheckRequest,
  IONS,
  NITRATE_CLASSES,
  QUICK_TESTS,
  SAMPLED_AS,
  STRICTEST,
  TABLE_KEYS,
} from "../../model/feed/index.ts";
import { ROUTES } from "../../model/harvest/index.ts";
import { NAME_LENGTH } from "../../model/limits.ts";
import { limited, listOf, record } from "./parts.ts";

/** A label that is missing is refused in the answer, not here: the rest of the question is still worth an answer. */
const unit = z.enum(CONTENT_UNITS).nullish();
const basis = z.enum(BASES).nullish();
const ion = z.enum(IONS).nullish();

const feed = record({
  id: z.string().max(NAME_LENGTH),
  dmFrac: limited(FEED_LIMITS.dmFrac),
  dmKg: limited(FEED_LIMITS.dmKg),
  nitrate: record({ value: z.number(), ion, unit, basis }).optional(),
  quickTest: z.enum(QUICK_TESTS).optional(),
  prussicAcid: record({ value: z.number(), unit, basis }).optional(),
  route: z.enum(ROUTES).optional(),
  sampled: z
    .enum(SAMPLED_AS)
    .optional()
    .openapi({ description: "Left out: fed-out. Only a standing sample of a fermented route is credited" }),
  maxShare: z
    .boolean()
    .optional()
    .openapi({ description: "The feed whose largest share is wanted; one at most" }),
}).openapi("Feed");

export const feedCheckRequest = record({
  animal: record({
    class: z.enum(ANIMAL_CLASSES),
    kg: limited(ANIMAL_KG_LIMIT),
    pregnant: z.boolean().optional(),
    young: z.boolean().optional().openapi({ description: "Growing, thin, sick, hungry or newly arrived" }),
  }),
  table: z.enum([STRICTEST, ...TABLE_KEYS] as [string, ...string[]]).optional(),
  targetPpmNo3N: limited(FEED_LIMITS.targetPpmNo3N).nullish(),
  water: record({
    litres: limited(FEED_LIMITS.litres),
    value: limited(FEED_LIMITS.waterPpm),
    ion,
    unit: z.enum(["ppm"]).nullish(),
  }).nullish(),
  feeds: listOf(feed, FEED_LIMITS.feeds.max).min(1, { error: "must have at least 1" }),
}).openapi("FeedCheckRequest") satisfies z.ZodType<FeedCheckRequest>;

const verdict = z
  .strictObject({ table: z.string(), class: z.enum(NITRATE_CLASSES), advice: z.string() })
  .openapi("NitrateVerdict");

export const feedCheckAnswer = z
  .strictObject({
    base: z.literal("NO3-N ppm DM"),
    feeds: z.array(
      z.strictObject({
        id: z.string(),
        ppm: z.number().nullable(),
        creditedPpm: z.number().nullable(),
        classes: z.array(verdict),
        strictest: verdict.nullable(),
        prussicAcid: z
          .strictObject({
            ppmDm: z.number(),
            ppmAsFed: z.number(),
            shareCap: z.union([z.literal(0), z.literal(1), z.null()]).openapi({
              description: "0: none of it; null: not all of it, no source says how much; 1: no line passed",
            }),
            classes: z.array(
              z.strictObject({
                source: z.string(),
                class: z.enum(["below", "caution", "danger"]),
                advice: z.string(),
              }),
            ),
          })
          .nullable(),
        waitWeeks: z.number().nullable(),
      }),
    ),
    dilution: z
      .strictObject({
        maxShareDm: z.record(z.string(), z.number()),
        tableShareCap: z.record(z.string(), z.number().nullable()),
        asFedKg: z.record(z.string(), z.number()).nullable(),
        noRation: z.string().nullable(),
        targetPpm: z.number(),
        targetFrom: z.string(),
      })
      .nullable(),
    noDilution: z.string().nullable(),
    intake: z.strictObject({
      gNo3N: z.number().nullable(),
      gPer100Kg: z.number().nullable(),
      dietPpm: z.number().nullable(),
      waterGNo3N: z.number().nullable(),
      trial: z
        .strictObject({ gPer100Kg: z.number(), source: z.string() })
        .openapi({ description: "Least first dose that killed in a trial: no line to feed up to" }),
    }),
    diet: z.array(verdict).nullable(),
    water: z.array(z.strictObject({ source: z.string(), class: z.string() })).nullable(),
    refusals: z.array(z.strictObject({ feedId: z.string(), missing: z.array(z.string()) })),
    defer: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .openapi("FeedCheckAnswer") satisfies z.ZodType<FeedCheckAnswer>;
