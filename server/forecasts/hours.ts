import { within } from "../../model/limits.ts";
import {
  COLUMN_LIMITS,
  type Column,
  type ColumnName,
  dewPointC,
  HOUR_MS,
  saturationVapourPressureKPa,
  standardPressureKPa,
  utcLabel,
} from "../../model/weather/index.ts";
import { UpstreamFailure } from "./failure.ts";

/** From the services' labels to hours labelled by their start. Every conversion of an hour's meaning stands here. */

type Values = readonly (number | null | undefined)[];

/** The mean of an hour from the instants at its two ends: N instants make N - 1 hours; null where either is missing. */
export function meansOfInstants(instants: Values): (number | null)[] {
  const means: (number | null)[] = [];
  for (let i = 0; i + 1 < instants.length; i += 1) {
    const start = instants[i] ?? null;
    const end = instants[i + 1] ?? null;
    means.push(start === null || end === null ? null : (start + end) / 2);
  }
  return means;
}

/**
 * Means and sums of the hour BEFORE their label, by the start of that hour, beside `meansOfInstants` of the same
 * labels: the value at label i + 1 belongs to the hour that starts at label i. The first label's value belongs to the
 * hour before the first and is dropped, because that hour has only one instant.
 */
export function ofHoursBeforeLabels(values: Values): (number | null)[] {
  return values.slice(1).map((value) => value ?? null);
}

/** Vapour pressure at instants, kPa: from temperature and humidity, else from the dew point; null where neither is. */
export function vapourOfInstants(airTempC: Values, relHumidityPct: Values, dewC: Values): (number | null)[] {
  return airTempC.map((tempC, i) => {
    const humidity = relHumidityPct[i] ?? null;
    const dew = dewC[i] ?? null;
    if (humidity !== null && (tempC ?? null) !== null) {
      return (Math.min(100, humidity) / 100) * saturationVapourPressureKPa(tempC as number);
    }
    return dew === null ? null : saturationVapourPressureKPa(dew);
  });
}

/** Humidity and dew point of hours from the mean vapour pressure: relative humidities are never averaged. */
export function moistureOfHours(
  airTempC: Column,
  vapourKPa: Column,
): { readonly relHumidityPct: (number | null)[]; readonly dewPointC: (number | null)[] } {
  const relHumidityPct = vapourKPa.map((vapour, i) => {
    const tempC = airTempC[i] ?? null;
    if (vapour === null || tempC === null) return null;
    return Math.min(100, (100 * vapour) / saturationVapourPressureKPa(tempC));
  });
  // Below this the dew point lies under -80 °C, where the formula ends.
  const LEAST_KPA = 1e-4;
  const dew = vapourKPa.map((vapour) => (vapour === null || vapour < LEAST_KPA ? null : dewPointC(vapour)));
  return { relHumidityPct, dewPointC: dew };
}

/** Pressure at the site from that at sea level, by the ratio of the standard atmosphere (FAO-56 eq. 7). */
export function sitePressureHpa(seaLevelHpa: number, elevationM: number): number {
  return (seaLevelHpa * standardPressureKPa(elevationM)) / standardPressureKPa(0);
}

/** Refuses a column with an impossible value: most likely its unit is not the one that was asked for. */
export function requirePlausible(name: ColumnName, values: Values, said: string): void {
  const limit = COLUMN_LIMITS[name];
  const wrong = values.find((value) => value !== null && value !== undefined && !within(value, limit));
  if (wrong === undefined || wrong === null) return;
  const message = `${said}: got ${wrong}, must be ${limit.min} to ${limit.max} ${limit.unit}`;
  throw new UpstreamFailure({ code: "implausible", message });
}

/** Refuses labels that are not one hour apart, or not on the hour. */
export function requireHourly(labelsMs: readonly number[]): void {
  labelsMs.forEach((ms, i) => {
    const before = labelsMs[i - 1];
    if (ms % HOUR_MS === 0 && (before === undefined || ms === before + HOUR_MS)) return;
    const message = `time: got ${Number.isFinite(ms) ? utcLabel(ms) : ms} at position ${i}, must be whole hours in a row`;
    throw new UpstreamFailure({ code: "unreadable", message });
  });
}

/** Far more than any forecast reaches: a label of another year is a fault, and no reason to fill a year with nothing. */
const MOST_HOURS = 60 * 24;

/** Refuses a span that no forecast has, before room is made for its hours. */
export function requireSpan(hours: number, said: string): void {
  if (hours >= 1 && hours <= MOST_HOURS) return;
  const message = `${said}: got a span of ${hours} h, must be at least 1 and at most ${MOST_HOURS}`;
  throw new UpstreamFailure({ code: "unreadable", message });
}

export function allNull(column: Values): boolean {
  return column.every((value) => value === null || value === undefined);
}
