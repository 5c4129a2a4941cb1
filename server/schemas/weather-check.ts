import { z } from "@hono/zod-openapi";
import { TEMPERATURE_UNITS, WIND_HEIGHT_LIMIT } from "../../model/weather/index.ts";
import { isStationAnswer } from "../../model/weather/station/index.ts";
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
  answers: z
    .record(z.string(), z.string())
    .refine((said) => Object.keys(said).every(isStationAnswer), {
      message: "keys must be dateOrder, clock, label, as.COLUMN, unit.COLUMN or column.QUANTITY",
      params: { code: "unknown-key" },
    })
    .optional()
    .openapi({
      description:
        "What is said of a station's file. dateOrder: dmy or mdy; clock: utc, standard or daylight; label: start, end, middle or instant; as.COLUMN: what a column is; unit.COLUMN: its unit; column.QUANTITY: which column holds it. In the query the same names stand by themselves.",
      example: { clock: "standard", "unit.Temp": "degF" },
    }),
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
        why: z.string().optional(),
      }),
    ),
    clock: z.strictObject({
      timeZone: z.string(),
      dst: z.boolean().nullable(),
      label: z.enum(["start", "end", "middle", "instant"]).nullable(),
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
    preview: z
      .array(
        z.strictObject({
          row: z.number().int(),
          wall: z.string(),
          values: z.record(z.string(), z.number().nullable()),
        }),
      )
      .openapi({ description: "The first rows of a station's file, converted" }),
    gaps: z
      .array(z.strictObject({ fromUtc: z.string(), hours: z.number().int(), columns: z.array(z.string()) }))
      .openapi({ description: "Hours in a row of which something needed is missing, the longest first" }),
    headerKey: z.string().openapi({ description: "The same for files with the same header" }),
  })
  .openapi("WeatherCheck") satisfies z.ZodType<WeatherCheck>;
