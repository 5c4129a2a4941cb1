import { z } from "@hono/zod-openapi";
import { SITE_LIMITS } from "../../model/weather/index.ts";
import { PROVIDER_NAMES } from "../forecasts/provider.ts";
import { limited, record } from "./parts.ts";

const CALENDAR_DAY = /^\d{4}-\d{2}-\d{2}$/;

/** A day that exists: February 30 has the right shape and is refused. */
function isCalendarDay(text: string): boolean {
  const ms = Date.parse(`${text}T00:00Z`);
  return CALENDAR_DAY.test(text) && Number.isFinite(ms) && new Date(ms).toISOString().startsWith(text);
}

const calendarDay = z
  .string()
  .refine(isCalendarDay, { message: "must be a calendar day as 2024-05-01", params: { code: "bad-day" } })
  .openapi({ format: "date", example: "2024-05-01" });

const place = {
  latitude: limited(SITE_LIMITS.latitude),
  longitude: limited(SITE_LIMITS.longitude),
  timeZone: z.string().optional().openapi({
    description: "IANA zone; left out, it is found from the place by a map that is coarse at borders",
  }),
  elevationM: limited(SITE_LIMITS.elevationM)
    .optional()
    .openapi({ description: "Left out, it is what the service gives for the place" }),
};

export const forecastQuery = record({
  ...place,
  provider: z
    .enum(PROVIDER_NAMES)
    .optional()
    .openapi({ description: "Asked first; left out, the order goes by the place" }),
  ensemble: z
    .enum(["true", "false"])
    .optional()
    .openapi({ description: "true brings the members of an ensemble, where the service has one" }),
}).openapi("ForecastQuery");

export const archiveQuery = record({
  ...place,
  from: calendarDay.openapi({ description: "First local day of the place" }),
  to: calendarDay.openapi({ description: "Last local day of the place" }),
}).openapi("ArchiveQuery");
