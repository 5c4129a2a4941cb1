import { z } from "@hono/zod-openapi";
import { TEMPERATURE_UNITS, WIND_HEIGHT_LIMIT } from "../../model/weather/index.ts";
import type { WeatherCheck } from "../uploads/weather-check.ts";
import { limited, record } from "./parts.ts";
import { drydownWeather, siteSchema } from "./weather.ts";

/** Answers to the questions that an earlier check of the file asked, by their id. */
const unit = z.enum(TEMPERATURE_UNITS).optional();
const answers = { airTempC: unit, dewPointC: unit, rainMm: z.string().optional() };

/** What a file of weather does not say itself. */
export const uploadPlace = record({
  site: siteSchema,
  windHeightM: limited(WIND_HEIGHT_LIMIT),
  ...answers,
}).openapi("UploadPlace");

/** The same, flat, as query parameters. */
export const uploadQuery = record({
  ...siteSchema.shape,
  windHeightM: limited(WIND_HEIGHT_LIMIT),
  ...answers,
});

export const weatherCheckAnswer = z
  .strictObject({
    series: drydownWeather.nullable(),
    understood: z.array(
      z.strictObject({
        column: z.string(),
        as: z.string(),
        unit: z.string(),
        basis: z.enum(["header", "user", "data"]),
      }),
    ),
    clock: z.strictObject({
      timeZone: z.string(),
      dst: z.boolean().nullable(),
      label: z.literal("start"),
      centroidH: z.number().nullable(),
    }),
    questions: z.array(
      z.strictObject({ id: z.string(), column: z.string(), ask: z.string(), choices: z.array(z.string()) }),
    ),
    problems: z.array(
      z.strictObject({
        row: z.number().int().nullable(),
        column: z.string().nullable(),
        value: z.string().nullable(),
        limit: z.string().nullable(),
        code: z.string(),
        severity: z.enum(["error", "warning"]),
        message: z.string(),
      }),
    ),
    counts: z.strictObject({
      rows: z.number().int(),
      hours: z.number().int(),
      filled: z.number().int(),
      missing: z.number().int(),
    }),
  })
  .openapi("WeatherCheck") satisfies z.ZodType<WeatherCheck>;
