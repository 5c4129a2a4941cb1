import { z } from "@hono/zod-openapi";
import { DAY_MS, HOUR_MS } from "../../model/weather/index.ts";
import { failureOfStatus, UpstreamFailure } from "./failure.ts";
import { moistureOfHours, requirePlausible, requireSpan, vapourOfInstants } from "./hours.ts";
import type { Network, Reply } from "./network.ts";
import { expandRain, expandState, readInterval, readLayer } from "./nws-layers.ts";
import type { Note, Provider, ProviderAnswer } from "./provider.ts";
import { readBody, readProblem } from "./read-body.ts";
import { openShelf, statedFreshUntilMs } from "./shelf.ts";

/**
 * US National Weather Service: the place's grid cell, then the cell's layers. A value holds for
 * `[start, start + duration)`; amounts of rain are of the interval. No radiation, no ensemble.
 */

const layer = z
  .object({
    uom: z.string().nullish(),
    values: z.array(z.object({ validTime: z.string(), value: z.number().nullable() })),
  })
  .optional();

const pointsSchema = z.object({ properties: z.object({ forecastGridData: z.string() }) });

const gridSchema = z.object({
  properties: z.object({
    updateTime: z.string(),
    validTimes: z.string(),
    elevation: z.object({ unitCode: z.string().optional(), value: z.number().nullable() }).optional(),
    temperature: layer,
    dewpoint: layer,
    relativeHumidity: layer,
    skyCover: layer,
    windSpeed: layer,
    probabilityOfPrecipitation: layer,
    quantitativePrecipitation: layer,
  }),
});

const problemSchema = z.object({ title: z.string().optional(), detail: z.string().optional() });

/** Offices redraw their grids now and then: the cell of a place is asked for again after this long. */
const KEEP_POINTS_MS = DAY_MS;
const KEEP_GRID_MS = HOUR_MS / 2;
/** "Unexpected Problem" usually passes within seconds. */
const BACKOFF_MS = 2000;
/** Chance of rain belongs to the forecast period, natively 12 h: it is never an hour's. */
const CHANCE_PERIOD_H = 12;

const ATTRIBUTION = [{ text: "US National Weather Service", url: "https://www.weather.gov/" }] as const;

export interface NwsHours
  extends Pick<ProviderAnswer, "issuedMs" | "elevationM" | "startMs" | "hours" | "marks" | "notes"> {}

function elevationOf(elevation: { unitCode?: string | undefined; value: number | null } | undefined) {
  if (elevation === undefined || elevation.value === null) return null;
  const unit = (elevation.unitCode ?? "m").replace(/^.*:/, "");
  if (unit === "m") return elevation.value;
  const message = `elevation: got the unit "${elevation.unitCode}", must be m`;
  throw new UpstreamFailure({ code: "surprise-unit", message });
}

/** When the office wrote the grid: without it nobody could tell a grid of days ago. */
function issuedOf(updateTime: string): number {
  const ms = Date.parse(updateTime);
  if (Number.isFinite(ms)) return ms;
  throw new UpstreamFailure({
    code: "unreadable",
    message: `updateTime: got "${updateTime}", must be a time`,
  });
}

export function readNwsGrid(text: string): NwsHours {
  const { properties: grid } = readBody(text, gridSchema);
  const { startMs, hours: count } = readInterval(grid.validTimes);
  requireSpan(count, "validTimes");
  const state = (name: "temperature" | "dewpoint" | "relativeHumidity" | "skyCover" | "windSpeed") => {
    const quantity =
      name === "windSpeed"
        ? "speed"
        : name === "temperature" || name === "dewpoint"
          ? "temperature"
          : "share";
    return expandState(readLayer(name, grid[name], quantity), startMs, count);
  };
  const airTempC = state("temperature");
  const relHumidityPct = state("relativeHumidity");
  const dewC = state("dewpoint");
  requirePlausible("airTempC", airTempC, "temperature");
  requirePlausible("relHumidityPct", relHumidityPct, "relativeHumidity");
  requirePlausible("dewPointC", dewC, "dewpoint");
  const rain = expandRain(
    readLayer("quantitativePrecipitation", grid.quantitativePrecipitation, "depth"),
    startMs,
    count,
  );
  const chances = readLayer("probabilityOfPrecipitation", grid.probabilityOfPrecipitation, "share");
  const rainChancePct = expandState(chances, startMs, count);
  const notes: Note[] =
    rain.merged === 0
      ? []
      : [
          {
            code: "merged-rain",
            text:
              `${rain.merged} rain ${rain.merged === 1 ? "period" : "periods"} may be several equal ones joined: ` +
              "read the wetter way, each part with the whole amount.",
          },
        ];
  return {
    issuedMs: issuedOf(grid.updateTime),
    elevationM: elevationOf(grid.elevation),
    startMs,
    hours: {
      airTempC,
      ...moistureOfHours(airTempC, vapourOfInstants(airTempC, relHumidityPct, dewC)),
      windSpeedMps: state("windSpeed"),
      cloudPct: state("skyCover"),
      rainMm: rain.rainMm,
      rainChancePct,
      rainChancePeriodH: rainChancePct.map((chance) => (chance === null ? null : CHANCE_PERIOD_H)),
      solarWm2: null,
      pressureHpa: null,
      seaLevelHpa: null,
    },
    marks: { rainMm: rain.marks },
    notes,
  };
}

function explain({ status, text }: Reply): UpstreamFailure {
  const problem = readProblem(text, problemSchema);
  const said = [problem?.title, problem?.detail].filter(Boolean).join(": ") || text;
  const failure = failureOfStatus(status, said);
  // An office that is late with its grid can be so for hours.
  if (status === 503 && /expired/i.test(said)) {
    return new UpstreamFailure({ code: "unavailable", message: failure.message });
  }
  if (status !== 403) return failure;
  const message = `${failure.message} (SWATHCLOCK_USER_AGENT must name the application and a contact)`;
  return new UpstreamFailure({ code: "refused", message });
}

/** The path of a cell's layers; its host is ours to choose. */
const GRID_PATH = /\/gridpoints\/[A-Za-z]{3,4}\/\d+,\d+$/;

function readPoints(text: string): string {
  const { properties } = readBody(text, pointsSchema);
  const path = GRID_PATH.exec(properties.forecastGridData)?.[0];
  if (path !== undefined) return path;
  const message = `forecastGridData: got "${properties.forecastGridData}", must end in /gridpoints/OFFICE/X,Y`;
  throw new UpstreamFailure({ code: "unreadable", message });
}

export function nws(network: Network, baseUrl: string): Provider {
  const name = "nws";
  const kind = { name, headers: { Accept: "application/geo+json" }, explain, backoffMs: BACKOFF_MS };
  const points = openShelf(network, {
    ...kind,
    read: readPoints,
    freshUntilMs: (_headers, nowMs) => nowMs + KEEP_POINTS_MS,
  });
  const grids = openShelf(network, {
    ...kind,
    read: readNwsGrid,
    freshUntilMs: (headers, nowMs) => statedFreshUntilMs(headers, nowMs) ?? nowMs + KEEP_GRID_MS,
  });
  return {
    name,
    forecast: async ({ latitude, longitude }, deadlineMs) => {
      const pointUrl = `${baseUrl}/points/${latitude},${longitude}`;
      const { value: path } = await points.get(pointUrl, deadlineMs);
      try {
        const { value, checkedMs } = await grids.get(`${baseUrl}${path}`, deadlineMs);
        return {
          ...value,
          provider: name,
          model: path.slice("/gridpoints/".length),
          fetchedMs: checkedMs,
          nativeStepHours: 1,
          attribution: ATTRIBUTION,
          members: [],
        };
      } catch (error) {
        // A cell that is gone means a redrawn grid: the place is looked up anew the next time.
        if (error instanceof UpstreamFailure && error.code === "outside-coverage") points.forget(pointUrl);
        throw error;
      }
    },
  };
}
