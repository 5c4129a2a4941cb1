import { z } from "@hono/zod-openapi";
import type { ColumnName, WeatherSeries } from "../../model/weather/index.ts";
import { NATIVE_STEP_LIMIT, SITE_LIMITS, WIND_HEIGHT_LIMIT } from "../../model/weather/index.ts";
import { limited, listOf, numberColumn, record, textColumn, utcTime, wordColumn } from "./parts.ts";

const MARKS = ["observed", "forecast", "cloud-estimate", "interpolated", "coarse", "assumed"] as const;
const ORIGINS = ["upload", "forecast", "archive", "sample", "joined"] as const;

const COLUMNS = [
  "airTempC",
  "relHumidityPct",
  "windSpeedMps",
  "rainMm",
  "solarWm2",
  "cloudPct",
  "dewPointC",
  "rainChancePct",
  "rainChancePeriodH",
  "pressureHpa",
] as const satisfies readonly ColumnName[];

/** Two years of hours: a course may be followed through any span of an archive. */
export const MAX_DRYDOWN_HOURS = 24 * 366 * 2;
/** A board tries every cut of the span, so its span is shorter. */
export const MAX_WINDOWS_HOURS = 24 * 400;
export const MAX_MEMBERS = 200;

/** Whether the zone is known, and the hours plausible, is for the model's own check of a series. */
export const siteSchema = record({
  latitude: limited(SITE_LIMITS.latitude),
  longitude: limited(SITE_LIMITS.longitude),
  elevationM: limited(SITE_LIMITS.elevationM),
  timeZone: z.string(),
}).openapi("Site");

/**
 * The canonical hourly series with at most so many hours. Rain that is wholly absent becomes a column of missing
 * values, which the model takes as dry and warns of.
 */
export function weatherSchema(maxHours: number) {
  const numbers = numberColumn(maxHours);
  const given = {
    solarWm2: numbers.optional(),
    cloudPct: numbers.optional(),
    dewPointC: numbers.optional(),
    rainChancePct: numbers.optional(),
    rainChancePeriodH: numbers.optional(),
    pressureHpa: numbers.optional(),
  };
  const schema = record({
    site: siteSchema,
    windHeightM: limited(WIND_HEIGHT_LIMIT),
    origin: z.enum(ORIGINS),
    provider: z.string().nullish(),
    model: z.string().nullish(),
    issuedUtc: utcTime.nullish(),
    fetchedUtc: utcTime.nullish(),
    nativeStepHours: limited(NATIVE_STEP_LIMIT).optional(),
    attribution: listOf(record({ text: z.string(), url: z.string() }), 20).optional(),
    hours: record({
      startUtc: textColumn(maxHours),
      airTempC: numbers,
      relHumidityPct: numbers,
      windSpeedMps: numbers,
      rainMm: numbers.optional(),
      ...given,
    }).transform(({ rainMm, ...hours }) => ({ ...hours, rainMm: rainMm ?? hours.startUtc.map(() => null) })),
    marks: z.partialRecord(z.enum(COLUMNS), wordColumn(maxHours, MARKS)).optional(),
    members: listOf(
      record({
        model: z.string().nullish(),
        airTempC: z.exactOptional(numbers),
        relHumidityPct: z.exactOptional(numbers),
        windSpeedMps: z.exactOptional(numbers),
        rainMm: z.exactOptional(numbers),
        ...given,
      }),
      MAX_MEMBERS,
    ).optional(),
  });
  return schema satisfies z.ZodType<WeatherSeries>;
}

export const drydownWeather = weatherSchema(MAX_DRYDOWN_HOURS).openapi("WeatherSeries");
export const windowsWeather = weatherSchema(MAX_WINDOWS_HOURS).openapi("WindowsWeatherSeries");
