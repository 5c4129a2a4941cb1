import { saturationVapourPressureKPa } from "../../../model/weather/air.ts";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import { utcLabel } from "../../../model/weather/labels.ts";
import { clearSkyHours, cloudTransmission } from "../../../model/weather/radiation.ts";
import type { ColumnName, Site, WeatherSeries } from "../../../model/weather/series.ts";

/** Plain invented hours for tests: a smooth day, a given cloud, no rain. */

export const DAKOTA: Site = {
  latitude: 44.3,
  longitude: -98.2,
  elevationM: 400,
  timeZone: "America/Chicago",
};

export interface Making {
  readonly count?: number;
  readonly start?: string;
  readonly site?: Site;
  readonly cloudFrac?: (hour: number) => number;
}

export function makeSeries({
  count = 72,
  start = "2026-07-01T05:00:00Z",
  site = DAKOTA,
  cloudFrac = () => 0.2,
}: Making = {}): WeatherSeries {
  const startMs = Date.parse(start);
  const { clearSkyWm2 } = clearSkyHours(startMs, count, site.latitude, site.longitude);
  const hours = Array.from({ length: count }, (_, i) => i);
  const temp = hours.map((i) => 20 - 6 * Math.cos((2 * Math.PI * (i - 4)) / 24));
  const vapour = saturationVapourPressureKPa(11);
  return {
    site,
    windHeightM: 2,
    origin: "upload",
    hours: {
      startUtc: hours.map((i) => utcLabel(startMs + i * HOUR_MS)),
      airTempC: temp,
      relHumidityPct: temp.map((tempC) => (100 * vapour) / saturationVapourPressureKPa(tempC)),
      windSpeedMps: hours.map((i) => 2 + Math.sin(i)),
      solarWm2: hours.map((i) => (clearSkyWm2[i] as number) * cloudTransmission(cloudFrac(i))),
      rainMm: hours.map(() => 0),
      cloudPct: hours.map((i) => 100 * cloudFrac(i)),
      pressureHpa: hours.map(() => 965),
    },
  };
}

type Values = readonly (number | null | undefined)[];

/** The series with some columns replaced; `undefined` takes a column away. */
export function withColumns(
  series: WeatherSeries,
  columns: Partial<Record<ColumnName | "startUtc", Values | readonly string[] | undefined>>,
): WeatherSeries {
  return { ...series, hours: { ...series.hours, ...columns } as WeatherSeries["hours"] };
}

/** A column with null at these hours. */
export function blank(column: readonly (number | null)[] | undefined, ...at: number[]): (number | null)[] {
  return (column ?? []).map((value, i) => (at.includes(i) ? null : value));
}

/** Numbers from `from` up to but not including `to`. */
export const span = (from: number, to: number) => Array.from({ length: to - from }, (_, k) => from + k);
