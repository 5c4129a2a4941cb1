import { z } from "@hono/zod-openapi";
import {
  DAY_MS,
  HOUR_MS,
  HOURLY_TO_WM2,
  type Mark,
  readIsoTime,
  TO_MPS,
  utcLabel,
} from "../../model/weather/index.ts";
import { failureOfStatus, UpstreamFailure } from "./failure.ts";
import {
  allNull,
  meansOfInstants,
  moistureOfHours,
  ofHoursBeforeLabels,
  requirePlausible,
  requireSpan,
  vapourOfInstants,
} from "./hours.ts";
import type { Network, Reply } from "./network.ts";
import type { Provider, ProviderAnswer, ProviderHours } from "./provider.ts";
import { readBody, readProblem } from "./read-body.ts";
import { openShelf } from "./shelf.ts";

/**
 * Bright Sky: observations and point forecasts of the German weather service in one list. Temperature, humidity, cloud
 * and pressure are of the label's instant; rain, radiation and WIND of the 60 minutes before it.
 */

const optional = z.number().nullish();

const bodySchema = z.object({
  weather: z.array(
    z.object({
      timestamp: z.string(),
      source_id: z.number(),
      temperature: optional,
      dew_point: optional,
      relative_humidity: optional,
      cloud_cover: optional,
      pressure_msl: optional,
      precipitation: optional,
      solar: optional,
      wind_speed: optional,
      precipitation_probability: optional,
      precipitation_probability_6h: optional,
    }),
  ),
  sources: z.array(z.object({ id: z.number(), observation_type: z.string(), height: optional })),
});

type Body = z.infer<typeof bodySchema>;
type Row = Body["weather"][number];
type Field = Exclude<keyof Row, "timestamp" | "source_id">;

const PAST_DAYS = 10;
const FORECAST_DAYS = 11;
const KEEP_MS = HOUR_MS / 2;

const ATTRIBUTION = [
  { text: "Data: Deutscher Wetterdienst", url: "https://www.dwd.de/" },
  { text: "through Bright Sky; averaged to hours", url: "https://brightsky.dev/" },
] as const;

const problemSchema = z.object({
  detail: z.union([z.string(), z.array(z.object({ msg: z.string() }))]),
});

export interface BrightSkyHours extends Pick<ProviderAnswer, "elevationM" | "startMs" | "hours" | "marks"> {}

/** One row for each hour of the span: rows that are missing are null, rows out of order an error. */
function rowsByHour(body: Body): { readonly startMs: number; readonly rows: readonly (Row | null)[] } {
  const moments = body.weather.map(({ timestamp }) => {
    const time = readIsoTime(timestamp);
    if (time.kind === "moment" && time.utcMs % HOUR_MS === 0) return time.utcMs;
    const message = `timestamp: got "${timestamp}", must be a whole hour with its offset`;
    throw new UpstreamFailure({ code: "unreadable", message });
  });
  const startMs = moments[0];
  const endMs = moments.at(-1);
  if (startMs === undefined || endMs === undefined || moments.length < 2) {
    throw new UpstreamFailure({ code: "too-short", message: `got ${moments.length} hours` });
  }
  moments.forEach((ms, k) => {
    const before = moments[k - 1];
    if (before === undefined || ms > before) return;
    const message = `timestamp: got ${utcLabel(ms)} after ${utcLabel(before)}`;
    throw new UpstreamFailure({ code: "unreadable", message });
  });
  const spanH = (endMs - startMs) / HOUR_MS;
  requireSpan(spanH, "timestamp");
  const rows = new Array<Row | null>(spanH + 1).fill(null);
  moments.forEach((ms, k) => {
    rows[(ms - startMs) / HOUR_MS] = body.weather[k] ?? null;
  });
  return { startMs, rows };
}

/** The chance of rain of single hours where it is given, else that of the six hours before 0, 6, 12 and 18 UTC. */
function chanceOf(rows: readonly (Row | null)[]) {
  const chance = ofHoursBeforeLabels(rows.map((row) => row?.precipitation_probability));
  const periodH = chance.map((value) => (value === null ? null : 1)) as (number | null)[];
  const ofSix = ofHoursBeforeLabels(rows.map((row) => row?.precipitation_probability_6h));
  ofSix.forEach((value, end) => {
    if (value === null) return;
    for (let i = Math.max(0, end - 5); i <= end; i += 1) {
      if (periodH[i] === 1) continue;
      chance[i] = value;
      periodH[i] = 6;
    }
  });
  return { chance, periodH };
}

export function readBrightSky(text: string): BrightSkyHours {
  const body = readBody(text, bodySchema);
  const { startMs, rows } = rowsByHour(body);
  const types = new Map(body.sources.map(({ id, observation_type }) => [id, observation_type]));
  const given = (field: Field, factor = 1) =>
    rows.map((row) => {
      const value = row?.[field] ?? null;
      return value === null ? null : value * factor;
    });
  const temperature = given("temperature");
  const humidity = given("relative_humidity");
  const dew = given("dew_point");
  requirePlausible("airTempC", temperature, "temperature");
  requirePlausible("relHumidityPct", humidity, "relative_humidity");
  requirePlausible("dewPointC", dew, "dew_point");
  const airTempC = meansOfInstants(temperature);
  const solar = ofHoursBeforeLabels(given("solar", HOURLY_TO_WM2.kilowattHourPerM2));
  const { chance, periodH } = chanceOf(rows);
  const hours: ProviderHours = {
    airTempC,
    ...moistureOfHours(airTempC, meansOfInstants(vapourOfInstants(temperature, humidity, dew))),
    windSpeedMps: ofHoursBeforeLabels(given("wind_speed", TO_MPS.kmh)),
    rainMm: ofHoursBeforeLabels(given("precipitation")),
    solarWm2: allNull(solar) ? null : solar,
    cloudPct: meansOfInstants(given("cloud_cover")),
    rainChancePct: chance,
    rainChancePeriodH: periodH,
    seaLevelHpa: meansOfInstants(given("pressure_msl")),
    pressureHpa: null,
  };
  // An hour is observed only where both its ends are.
  const isObserved = rows.map(
    (row) => row !== null && (types.get(row.source_id) ?? "forecast") !== "forecast",
  );
  const observed: (Mark | null)[] = airTempC.map((_, i) =>
    isObserved[i] && isObserved[i + 1] ? "observed" : null,
  );
  const forecastSource = body.sources.find(({ observation_type }) => observation_type === "forecast");
  return {
    elevationM: (forecastSource ?? body.sources[0])?.height ?? null,
    startMs,
    hours,
    marks: {
      airTempC: observed,
      relHumidityPct: observed,
      dewPointC: observed,
      windSpeedMps: observed,
      rainMm: observed,
      solarWm2: observed,
      cloudPct: observed,
    },
  };
}

function explain({ status, text }: Reply): UpstreamFailure {
  const detail = readProblem(text, problemSchema)?.detail;
  const said = typeof detail === "string" ? detail : detail?.map(({ msg }) => msg).join("; ");
  const failure = failureOfStatus(status, said ?? text);
  // Here a 422 is a question that it does not understand; only a 404 is a place without data.
  return status === 422 ? new UpstreamFailure({ code: "refused", message: failure.message }) : failure;
}

export function brightSky(network: Network, baseUrl: string): Provider {
  const name = "bright-sky";
  const shelf = openShelf(network, {
    name,
    read: readBrightSky,
    explain,
    freshUntilMs: (_headers, nowMs) => nowMs + KEEP_MS,
  });
  return {
    name,
    forecast: async ({ latitude, longitude }, deadlineMs) => {
      // Whole days, so that the address is the same all day and the answer can be kept.
      const todayMs = Math.floor(network.nowMs() / DAY_MS) * DAY_MS;
      const query = new URLSearchParams({
        lat: String(latitude),
        lon: String(longitude),
        date: utcLabel(todayMs - PAST_DAYS * DAY_MS).slice(0, 10),
        last_date: utcLabel(todayMs + FORECAST_DAYS * DAY_MS).slice(0, 10),
        tz: "Etc/UTC",
        units: "dwd",
      });
      const { value, checkedMs } = await shelf.get(`${baseUrl}/weather?${query}`, deadlineMs);
      return {
        ...value,
        provider: name,
        model: "MOSMIX",
        issuedMs: null,
        fetchedMs: checkedMs,
        nativeStepHours: 1,
        attribution: ATTRIBUTION,
        members: [],
        notes: [],
      };
    },
  };
}
