import { z } from "@hono/zod-openapi";
import { type Column, type ColumnName, HOUR_MS, type WeatherMember } from "../../model/weather/index.ts";
import { UpstreamFailure } from "./failure.ts";
import {
  allNull,
  meansOfInstants,
  moistureOfHours,
  ofHoursBeforeLabels,
  requireHourly,
  requirePlausible,
  vapourOfInstants,
} from "./hours.ts";
import type { ProviderHours } from "./provider.ts";
import { readBody } from "./read-body.ts";

/**
 * Reading Open-Meteo's columns. Instants: temperature, humidity, wind, cloud, pressure. Of the hour before the label:
 * radiation (mean), precipitation (sum), chance of precipitation.
 */

/** The variables asked for, with the one unit that each may come in. */
export const OPEN_METEO_UNITS = {
  temperature_2m: "°C",
  relative_humidity_2m: "%",
  dew_point_2m: "°C",
  wind_speed_10m: "m/s",
  shortwave_radiation: "W/m²",
  precipitation: "mm",
  precipitation_probability: "%",
  cloud_cover: "%",
  surface_pressure: "hPa",
} as const;

type Variable = keyof typeof OPEN_METEO_UNITS;

export const FORECAST_VARIABLES = Object.keys(OPEN_METEO_UNITS) as readonly Variable[];
export const ARCHIVE_VARIABLES = FORECAST_VARIABLES.filter((name) => name !== "precipitation_probability");
export const ENSEMBLE_VARIABLES = ARCHIVE_VARIABLES.filter((name) => name !== "surface_pressure");

const LIMIT_OF: Readonly<Record<Variable, ColumnName>> = {
  temperature_2m: "airTempC",
  relative_humidity_2m: "relHumidityPct",
  dew_point_2m: "dewPointC",
  wind_speed_10m: "windSpeedMps",
  shortwave_radiation: "solarWm2",
  precipitation: "rainMm",
  precipitation_probability: "rainChancePct",
  cloud_cover: "cloudPct",
  surface_pressure: "pressureHpa",
};

const bodySchema = z.object({
  elevation: z.number().nullish(),
  utc_offset_seconds: z.number().optional(),
  hourly_units: z.record(z.string(), z.string()),
  hourly: z.record(z.string(), z.array(z.number().nullable())),
});

type Body = z.infer<typeof bodySchema>;
type Columns = Partial<Record<Variable, readonly (number | null)[]>>;

/** The trajectories of one answer: what stands under one model's and one member's keys. */
export interface Trajectory {
  readonly model: string | null;
  /** 0 is the control. */
  readonly member: number;
  readonly columns: Columns;
}

export interface OpenMeteoHours {
  readonly elevationM: number | null;
  readonly startMs: number;
  readonly trajectories: readonly Trajectory[];
}

/** Which model, member and variable a key stands for, or null when it is none that was asked for. */
export function keyParts(
  key: string,
  models: readonly string[],
): { readonly variable: Variable; readonly member: number; readonly model: string | null } | null {
  // With one model there is no suffix; with several, the longest name that fits is the model's.
  const longestFirst = models.length > 1 ? [...models].sort((a, b) => b.length - a.length) : [];
  const model =
    longestFirst.find((name) => key.endsWith(`_${name}`)) ?? (models.length === 1 ? models[0] : null);
  // With several models a key without any of their names is nobody's.
  if (models.length > 1 && !model) return null;
  const bare = models.length > 1 && model ? key.slice(0, -model.length - 1) : key;
  const suffix = /^(.+)_member(\d{2,})$/.exec(bare);
  const variable = suffix?.[1] ?? bare;
  if (!Object.hasOwn(OPEN_METEO_UNITS, variable)) return null;
  return { variable: variable as Variable, member: Number(suffix?.[2] ?? 0), model: model ?? null };
}

function requireUnit(body: Body, key: string, variable: Variable): void {
  const got = body.hourly_units[key];
  const must = OPEN_METEO_UNITS[variable];
  if (got === must) return;
  const message = `${key}: got the unit ${got === undefined ? "none" : `"${got}"`}, must be "${must}"`;
  throw new UpstreamFailure({ code: "surprise-unit", message });
}

/** The labels of an answer, ms: unix seconds as they were asked for, whole hours in a row. */
function labelsOf(body: Body): number[] {
  const unit = body.hourly_units.time;
  if (unit !== "unixtime") {
    const message = `time: got the unit ${unit === undefined ? "none" : `"${unit}"`}, must be "unixtime"`;
    throw new UpstreamFailure({ code: "surprise-unit", message });
  }
  const labels = (body.hourly.time ?? []).map((seconds) => (seconds ?? Number.NaN) * 1000);
  if (labels.length < 2) {
    throw new UpstreamFailure({ code: "too-short", message: `time: got ${labels.length} labels` });
  }
  requireHourly(labels);
  return labels;
}

/**
 * An answer as trajectories in the order of `models`, each model's control first.
 *
 * @param models as asked; empty where the service chose
 */
export function readOpenMeteo(text: string, models: readonly string[]): OpenMeteoHours {
  const body = readBody(text, bodySchema);
  const labels = labelsOf(body);
  const found = new Map<string, { model: string | null; member: number; columns: Columns }>();
  for (const [key, values] of Object.entries(body.hourly)) {
    if (key === "time") continue;
    const parts = keyParts(key, models);
    if (parts === null) continue;
    if (values.length !== labels.length) {
      const message = `${key}: got ${values.length} values, must have one for each of ${labels.length} labels`;
      throw new UpstreamFailure({ code: "unreadable", message });
    }
    if (!allNull(values)) requireUnit(body, key, parts.variable);
    requirePlausible(LIMIT_OF[parts.variable], values, key);
    const id = `${parts.model} ${parts.member}`;
    const trajectory = found.get(id) ?? { model: parts.model, member: parts.member, columns: {} };
    trajectory.columns[parts.variable] = values;
    found.set(id, trajectory);
  }
  const place = (model: string | null) => (model === null ? -1 : models.indexOf(model));
  const trajectories = [...found.values()].sort(
    (a, b) => place(a.model) - place(b.model) || a.member - b.member,
  );
  return { elevationM: body.elevation ?? null, startMs: labels[0] ?? 0, trajectories };
}

/** One trajectory as hours labelled by their start. */
export function hoursOfTrajectory(columns: Columns): ProviderHours {
  const count = Math.max(0, ...Object.values(columns).map((values) => values.length));
  const given = (name: Variable) => columns[name] ?? new Array<null>(count).fill(null);
  const optional = (name: Variable, convert: (values: Column) => Column) => {
    const values = given(name);
    return allNull(values) ? null : convert(values);
  };
  const airTempC = meansOfInstants(given("temperature_2m"));
  const vapour = meansOfInstants(
    vapourOfInstants(given("temperature_2m"), given("relative_humidity_2m"), given("dew_point_2m")),
  );
  const rainChancePct = optional("precipitation_probability", ofHoursBeforeLabels);
  return {
    airTempC,
    ...moistureOfHours(airTempC, vapour),
    windSpeedMps: meansOfInstants(given("wind_speed_10m")),
    rainMm: ofHoursBeforeLabels(given("precipitation")),
    solarWm2: optional("shortwave_radiation", ofHoursBeforeLabels),
    cloudPct: optional("cloud_cover", meansOfInstants),
    rainChancePct,
    rainChancePeriodH: rainChancePct?.map((chance) => (chance === null ? null : 1)) ?? null,
    pressureHpa: optional("surface_pressure", meansOfInstants),
    seaLevelHpa: null,
  };
}

const MEMBER_COLUMNS = [
  "airTempC",
  "relHumidityPct",
  "windSpeedMps",
  "solarWm2",
  "rainMm",
  "cloudPct",
] as const satisfies readonly (keyof ProviderHours)[];

/**
 * A member beside the shared hours. Before its first hour the shared hours stand: what is past is the same for all.
 * After its last hour it is null. A column that it lacks altogether is left out, to be taken from the shared hours.
 */
export function memberOf(
  trajectory: Trajectory,
  startMs: number,
  shared: ProviderHours,
  sharedStartMs: number,
): WeatherMember {
  const own = hoursOfTrajectory(trajectory.columns);
  const shift = Math.round((startMs - sharedStartMs) / HOUR_MS);
  const member: Partial<Record<ColumnName, (number | null)[]>> = {};
  for (const name of MEMBER_COLUMNS) {
    const values = own[name];
    if (values === null || allNull(values)) continue;
    const before = shared[name];
    member[name] = shared.airTempC.map((_, i) =>
      i < shift ? (before?.[i] ?? null) : (values[i - shift] ?? null),
    );
  }
  return { model: trajectory.model, ...member };
}
