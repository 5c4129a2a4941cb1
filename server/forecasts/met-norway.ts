import { z } from "@hono/zod-openapi";
import { HOUR_MS, type Mark, readIsoTime, utcLabel } from "../../model/weather/index.ts";
import { failureOfStatus, inShort, UpstreamFailure } from "./failure.ts";
import {
  meansOfInstants,
  moistureOfHours,
  requirePlausible,
  requireSpan,
  vapourOfInstants,
} from "./hours.ts";
import type { Network, Reply } from "./network.ts";
import type { Provider, ProviderAnswer } from "./provider.ts";
import { readBody } from "./read-body.ts";
import { openShelf, statedFreshUntilMs } from "./shelf.ts";

/**
 * MET Norway Locationforecast 2.0, complete. Instants at `time`; `next_N_hours` is the period that begins at `time`.
 * Hourly for some 2.5 days, then every 6 h: the tail is interpolated and marked coarse. No radiation, no ensemble.
 */

const optional = z.number().nullish();
const amounts = z
  .object({
    details: z.object({ precipitation_amount: optional, probability_of_precipitation: optional }).optional(),
  })
  .optional();

const bodySchema = z.object({
  geometry: z.object({ coordinates: z.array(z.number()) }),
  properties: z.object({
    meta: z.object({ updated_at: z.string(), units: z.record(z.string(), z.string()) }),
    timeseries: z
      .array(
        z.object({
          time: z.string(),
          data: z.object({
            instant: z.object({
              details: z.object({
                air_temperature: optional,
                relative_humidity: optional,
                dew_point_temperature: optional,
                wind_speed: optional,
                cloud_area_fraction: optional,
                air_pressure_at_sea_level: optional,
              }),
            }),
            next_1_hours: amounts,
            next_6_hours: amounts,
            next_12_hours: amounts,
          }),
        }),
      )
      .min(2),
  }),
});

type Body = z.infer<typeof bodySchema>;
type Entry = Body["properties"]["timeseries"][number];
type Instant = keyof Entry["data"]["instant"]["details"];

const UNITS = {
  air_temperature: "celsius",
  relative_humidity: "%",
  dew_point_temperature: "celsius",
  wind_speed: "m/s",
  cloud_area_fraction: "%",
  air_pressure_at_sea_level: "hPa",
  precipitation_amount: "mm",
  probability_of_precipitation: "%",
} as const;

const PERIODS = [
  { hours: 12, key: "next_12_hours" },
  { hours: 6, key: "next_6_hours" },
  { hours: 1, key: "next_1_hours" },
] as const;

/** Instants further apart than this are not bridged. */
const LONGEST_STEP_H = 6;
const KEEP_MS = HOUR_MS / 2;
const JITTER_MS = 60_000;

const ATTRIBUTION = [
  { text: "Data from MET Norway", url: "https://www.met.no/en" },
  {
    text: "CC BY 4.0; averaged to hours, radiation estimated from cloud",
    url: "https://creativecommons.org/licenses/by/4.0/",
  },
] as const;

function requireUnits({ properties }: Body): void {
  const { units } = properties.meta;
  for (const [name, must] of Object.entries(UNITS)) {
    const got = units[name];
    if (got === must) continue;
    const used = properties.timeseries.some(
      ({ data }) =>
        typeof data.instant.details[name as Instant] === "number" ||
        PERIODS.some(({ key }) => typeof data[key]?.details?.[name as "precipitation_amount"] === "number"),
    );
    if (got === undefined && !used) continue;
    const message = `${name}: got the unit ${got === undefined ? "none" : `"${got}"`}, must be "${must}"`;
    throw new UpstreamFailure({ code: "surprise-unit", message });
  }
}

function momentOf(text: string): number {
  const time = readIsoTime(text);
  if (time.kind === "moment") return time.utcMs;
  throw new UpstreamFailure({ code: "unreadable", message: `time: got "${text}", must be ISO 8601 with Z` });
}

/** The entries with their moments, in order and on whole hours. */
function entriesOf({ properties }: Body): { readonly ms: number; readonly entry: Entry }[] {
  const entries = properties.timeseries.map((entry) => ({ ms: momentOf(entry.time), entry }));
  entries.forEach(({ ms }, i) => {
    const before = entries[i - 1]?.ms ?? Number.NEGATIVE_INFINITY;
    if (ms % HOUR_MS === 0 && ms > before) return;
    const message = `time: got ${utcLabel(ms)} at position ${i}, must be whole hours in rising order`;
    throw new UpstreamFailure({ code: "unreadable", message });
  });
  return entries;
}

export interface MetNorwayHours
  extends Pick<ProviderAnswer, "issuedMs" | "elevationM" | "startMs" | "hours" | "marks"> {}

export function readMetNorway(text: string): MetNorwayHours {
  const body = readBody(text, bodySchema);
  requireUnits(body);
  const entries = entriesOf(body);
  const startMs = entries[0]?.ms ?? 0;
  const count = Math.round(((entries.at(-1)?.ms ?? 0) - startMs) / HOUR_MS);
  requireSpan(count, "time");
  const at = (ms: number) => Math.round((ms - startMs) / HOUR_MS);

  // The step that each hour lies in; 1 where the service gives every hour.
  const stepH = new Array<number>(count).fill(1);
  for (let k = 0; k + 1 < entries.length; k += 1) {
    const from = at(entries[k]?.ms ?? 0);
    const to = at(entries[k + 1]?.ms ?? 0);
    stepH.fill(to - from, from, to);
  }

  const instants = (values: readonly (number | null | undefined)[]): (number | null)[] => {
    const column = new Array<number | null>(count + 1).fill(null);
    values.forEach((value, k) => {
      column[at(entries[k]?.ms ?? 0)] = value ?? null;
    });
    for (let k = 0; k + 1 < entries.length; k += 1) {
      const from = at(entries[k]?.ms ?? 0);
      const to = at(entries[k + 1]?.ms ?? 0);
      const first = values[k] ?? null;
      const last = values[k + 1] ?? null;
      if (to - from > LONGEST_STEP_H || first === null || last === null) continue;
      for (let i = from + 1; i < to; i += 1) column[i] = first + ((last - first) * (i - from)) / (to - from);
    }
    return column;
  };
  const given = (name: Instant) => entries.map(({ entry }) => entry.data.instant.details[name]);
  const read = (name: Instant) => meansOfInstants(instants(given(name)));
  requirePlausible("airTempC", given("air_temperature"), "air_temperature");
  requirePlausible("dewPointC", given("dew_point_temperature"), "dew_point_temperature");
  requirePlausible("relHumidityPct", given("relative_humidity"), "relative_humidity");

  const airTempC = read("air_temperature");
  const vapour = meansOfInstants(
    instants(
      vapourOfInstants(given("air_temperature"), given("relative_humidity"), given("dew_point_temperature")),
    ),
  );
  const { rainMm, rainChancePct, rainChancePeriodH, rainMarks } = rainOf(entries, stepH, at);
  const tail: (Mark | null)[] = stepH.map((step) => (step > 1 ? "coarse" : null));
  return {
    issuedMs: Date.parse(body.properties.meta.updated_at) || null,
    elevationM: body.geometry.coordinates[2] ?? null,
    startMs,
    hours: {
      airTempC,
      ...moistureOfHours(airTempC, vapour),
      windSpeedMps: read("wind_speed"),
      cloudPct: read("cloud_area_fraction"),
      seaLevelHpa: read("air_pressure_at_sea_level"),
      rainMm,
      rainChancePct,
      rainChancePeriodH,
      solarWm2: null,
      pressureHpa: null,
    },
    marks: {
      airTempC: tail,
      relHumidityPct: tail,
      dewPointC: tail,
      windSpeedMps: tail,
      cloudPct: tail,
      seaLevelHpa: tail,
      rainMm: rainMarks,
    },
  };
}

/** Amounts never of a period longer than the local step: adding `next_6_hours` hour by hour counts rain six times. */
function rainOf(
  entries: readonly { readonly ms: number; readonly entry: Entry }[],
  stepH: readonly number[],
  at: (ms: number) => number,
) {
  const count = stepH.length;
  const rainMm = new Array<number | null>(count).fill(null);
  const rainChancePct = new Array<number | null>(count).fill(null);
  const rainChancePeriodH = new Array<number | null>(count).fill(null);
  const rainMarks = new Array<Mark | null>(count).fill(null);
  for (const { ms, entry } of entries) {
    const from = at(ms);
    const step = stepH[from] ?? 0;
    const fitting = PERIODS.filter(({ hours }) => hours <= step);
    const amount = fitting.find(
      ({ key }) => typeof entry.data[key]?.details?.precipitation_amount === "number",
    );
    if (amount !== undefined) {
      const total = entry.data[amount.key]?.details?.precipitation_amount ?? null;
      const to = from + amount.hours;
      rainMm.fill(total === null ? null : total / amount.hours, from, to);
      if (amount.hours > 1) rainMarks.fill("coarse", from, to);
    }
    const chance = fitting.find(
      ({ key }) => typeof entry.data[key]?.details?.probability_of_precipitation === "number",
    );
    if (chance !== undefined) {
      const to = from + chance.hours;
      rainChancePct.fill(entry.data[chance.key]?.details?.probability_of_precipitation ?? null, from, to);
      rainChancePeriodH.fill(chance.hours, from, to);
    }
  }
  return { rainMm, rainChancePct, rainChancePeriodH, rainMarks };
}

function explain({ status, text }: Reply): UpstreamFailure {
  if (status !== 403) return failureOfStatus(status, text);
  const message = `answered 403: ${inShort(text)} (SWATHCLOCK_USER_AGENT must name the application and a contact)`;
  return new UpstreamFailure({ code: "refused", message });
}

export function metNorway(network: Network, baseUrl: string): Provider {
  const name = "met-norway";
  const shelf = openShelf(network, {
    name,
    read: readMetNorway,
    explain,
    // Not again before Expires, and then not all at once on the full minute.
    freshUntilMs: (headers, nowMs) => {
      const expiresMs = Date.parse(headers.get("Expires") ?? "");
      const statedMs = Number.isFinite(expiresMs) ? expiresMs : statedFreshUntilMs(headers, nowMs);
      return (statedMs ?? nowMs + KEEP_MS) + network.random() * JITTER_MS;
    },
  });
  return {
    name,
    forecast: async ({ latitude, longitude, elevationM }, deadlineMs) => {
      const query = new URLSearchParams({ lat: String(latitude), lon: String(longitude) });
      if (elevationM !== null) query.set("altitude", String(Math.round(elevationM)));
      const url = `${baseUrl}/weatherapi/locationforecast/2.0/complete?${query}`;
      const { value, checkedMs } = await shelf.get(url, deadlineMs);
      return {
        ...value,
        provider: name,
        model: null,
        fetchedMs: checkedMs,
        nativeStepHours: 1,
        attribution: ATTRIBUTION,
        members: [],
        notes: [],
      };
    },
  };
}
