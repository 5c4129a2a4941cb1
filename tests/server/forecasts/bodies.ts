import { HOUR_MS, utcLabel } from "../../../model/weather/index.ts";

/** Synthetic answers of four weather services, made by hand after their documented shapes. None was ever received. */

type Column = readonly (number | null)[];

export function column(hours: number, of: (i: number) => number | null): (number | null)[] {
  return Array.from({ length: hours }, (_, i) => of(i));
}

const OPEN_METEO_UNITS: Readonly<Record<string, string>> = {
  temperature_2m: "°C",
  relative_humidity_2m: "%",
  dew_point_2m: "°C",
  wind_speed_10m: "m/s",
  shortwave_radiation: "W/m²",
  precipitation: "mm",
  precipitation_probability: "%",
  cloud_cover: "%",
  surface_pressure: "hPa",
};

/** Plain hours of a fair summer day, repeated. */
function fairColumns(labels: number): Record<string, (number | null)[]> {
  const hour = (i: number) => i % 24;
  return {
    temperature_2m: column(labels, (i) => 15 + 8 * Math.sin(((hour(i) - 8) / 24) * 2 * Math.PI)),
    relative_humidity_2m: column(labels, (i) => (hour(i) > 8 && hour(i) < 20 ? 50 : 85)),
    dew_point_2m: column(labels, () => 9),
    wind_speed_10m: column(labels, () => 3),
    shortwave_radiation: column(labels, (i) => (hour(i) > 6 && hour(i) < 20 ? 400 : 0)),
    precipitation: column(labels, () => 0),
    precipitation_probability: column(labels, () => 5),
    cloud_cover: column(labels, () => 30),
    surface_pressure: column(labels, () => 960),
  };
}

export interface OpenMeteoParts {
  readonly startUtc: string;
  readonly labels: number;
  readonly columns?: Readonly<Record<string, Column>>;
  readonly units?: Readonly<Record<string, string>>;
  readonly elevation?: number | null;
}

/** Open-Meteo, unixtime in GMT. Columns given stand over the fair ones; an empty list takes one away. */
export function openMeteoBody({
  startUtc,
  labels,
  columns = {},
  units = {},
  elevation = 271,
}: OpenMeteoParts) {
  const startS = Date.parse(startUtc) / 1000;
  const all = { ...fairColumns(labels), ...columns };
  const hourly = Object.fromEntries(Object.entries(all).filter(([, values]) => values.length > 0));
  const unitOf = (key: string) => {
    const names = Object.keys(OPEN_METEO_UNITS).filter((name) => key.startsWith(name));
    return OPEN_METEO_UNITS[names.sort((a, b) => b.length - a.length)[0] ?? ""] ?? "undefined";
  };
  return {
    latitude: 46.79,
    longitude: -96.89,
    generationtime_ms: 0.21,
    utc_offset_seconds: 0,
    timezone: "GMT",
    timezone_abbreviation: "GMT",
    ...(elevation === null ? {} : { elevation }),
    hourly_units: {
      time: "unixtime",
      ...Object.fromEntries(Object.keys(hourly).map((key) => [key, unitOf(key)])),
      ...units,
    },
    hourly: { time: column(labels, (i) => startS + i * 3600), ...hourly },
  };
}

/**
 * An ensemble of one model in the same shape: the control under the bare names, each member with its number after them.
 * Members are warmer or colder by a fraction of a degree, and each fourth has a shower six days after the start.
 */
export function ensembleBody({ members, ...parts }: OpenMeteoParts & { readonly members: number }) {
  const {
    precipitation_probability: _chance,
    surface_pressure: _pressure,
    ...control
  } = fairColumns(parts.labels);
  const columns: Record<string, Column> = { precipitation_probability: [], surface_pressure: [] };
  for (let k = 1; k < members; k += 1) {
    for (const [name, values] of Object.entries(control)) {
      const warmerC = name === "temperature_2m" ? ((k % 5) - 2) / 4 : 0;
      const rainMm = (i: number) => (name === "precipitation" && k % 4 === 0 && i >= 144 && i < 147 ? 2 : 0);
      const own = values.map((value, i) => (value === null ? null : value + warmerC + rainMm(i)));
      columns[`${name}_member${String(k).padStart(2, "0")}`] = own;
    }
  }
  return openMeteoBody({ ...parts, columns });
}

export interface MetEntry {
  readonly hour: number;
  readonly instant?: Readonly<Record<string, number>>;
  readonly next1?: Readonly<Record<string, number>>;
  readonly next6?: Readonly<Record<string, number>>;
  readonly next12?: Readonly<Record<string, number>>;
}

const MET_UNITS = {
  air_temperature: "celsius",
  relative_humidity: "%",
  dew_point_temperature: "celsius",
  wind_speed: "m/s",
  cloud_area_fraction: "%",
  air_pressure_at_sea_level: "hPa",
  precipitation_amount: "mm",
  probability_of_precipitation: "%",
};

/** MET Norway Locationforecast, complete. Entries by hours after the start; details not given are plain. */
export function metBody(startUtc: string, entries: readonly MetEntry[], units: object = MET_UNITS) {
  const startMs = Date.parse(startUtc);
  const period = (details: Readonly<Record<string, number>> | undefined) =>
    details === undefined ? undefined : { summary: { symbol_code: "cloudy" }, details };
  return {
    type: "Feature",
    geometry: { type: "Point", coordinates: [16.4, 48.2, 171] },
    properties: {
      meta: { updated_at: startUtc, units },
      timeseries: entries.map(({ hour, instant, next1, next6, next12 }) => ({
        time: utcLabel(startMs + hour * HOUR_MS),
        data: {
          instant: {
            details: {
              air_temperature: 15,
              relative_humidity: 70,
              dew_point_temperature: 9.6,
              wind_speed: 3,
              cloud_area_fraction: 50,
              air_pressure_at_sea_level: 1013,
              ...instant,
            },
          },
          next_1_hours: period(next1),
          next_6_hours: period(next6),
          next_12_hours: period(next12),
        },
      })),
    },
  };
}

/** An hourly head of 60 h and a tail of 6-hour steps, as the service gives it. */
export function metFair(startUtc: string, hourly = 60, tailSteps = 20) {
  const head = Array.from({ length: hourly }, (_, hour) => ({
    hour,
    next1: { precipitation_amount: 0 },
    next6: { precipitation_amount: 0 },
  }));
  const tail = Array.from({ length: tailSteps }, (_, k) => ({
    hour: hourly + 6 * k,
    next6: { precipitation_amount: 0 },
  }));
  return metBody(startUtc, [...head, ...tail, { hour: hourly + 6 * tailSteps }]);
}

export interface NwsLayer {
  readonly uom?: string | null;
  readonly values: readonly { readonly validTime: string; readonly value: number | null }[];
}

/** A grid of the US National Weather Service. Layers given stand over the fair ones. */
export function nwsBody(startUtc: string, days: number, layers: Readonly<Record<string, NwsLayer>> = {}) {
  const start = startUtc.replace("Z", "+00:00");
  const whole = `${start}/P${days}D`;
  const constant = (uom: string, value: number) => ({ uom, values: [{ validTime: whole, value }] });
  return {
    properties: {
      updateTime: start,
      validTimes: whole,
      elevation: { unitCode: "wmoUnit:m", value: 271.9 },
      temperature: constant("wmoUnit:degC", 17),
      dewpoint: constant("wmoUnit:degC", 10),
      relativeHumidity: constant("wmoUnit:percent", 63),
      skyCover: constant("wmoUnit:percent", 40),
      windSpeed: constant("wmoUnit:km_h-1", 18),
      probabilityOfPrecipitation: constant("wmoUnit:percent", 20),
      quantitativePrecipitation: constant("wmoUnit:mm", 0),
      ...layers,
    },
  };
}

export const NWS_POINTS = {
  properties: {
    forecastGridData: "https://nws.invalid/gridpoints/ABC/10,20",
    timeZone: "America/Chicago",
  },
};

export type BrightRow = Readonly<Record<string, number | string | null>>;

/** Bright Sky in the units of the German service. Rows given by hours after the start stand over the fair ones. */
export function brightBody(
  startUtc: string,
  labels: number,
  row: (i: number) => BrightRow = () => ({}),
  observedUntil = 0,
) {
  const startMs = Date.parse(startUtc);
  return {
    weather: Array.from({ length: labels }, (_, i) => ({
      timestamp: utcLabel(startMs + i * HOUR_MS).replace("Z", "+00:00"),
      source_id: i < observedUntil ? 1 : 2,
      temperature: 18,
      dew_point: 10,
      relative_humidity: null,
      cloud_cover: 40,
      pressure_msl: 1015,
      precipitation: 0,
      solar: 0.2,
      wind_speed: 18,
      precipitation_probability: null,
      precipitation_probability_6h: null,
      ...row(i),
    })),
    sources: [
      { id: 1, observation_type: "historical", height: 58 },
      { id: 2, observation_type: "forecast", height: 60 },
    ],
  };
}
