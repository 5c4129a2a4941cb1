import type { Marks, Site } from "./series.ts";
import type { WeatherWarning } from "./warnings.ts";

/**
 * Gap-free hourly weather in the model's own units, one array a quantity, all of length `count`.
 * Hour i covers [startUtcMs + i h, startUtcMs + (i + 1) h).
 */
export interface HourlyWeather {
  readonly site: Site;
  readonly startUtcMs: number;
  readonly count: number;
  /** Mean air temperature at 2 m, °C. */
  readonly airTempC: Float64Array;
  /** Mean vapour pressure of the air, kPa. */
  readonly vapourPressureKPa: Float64Array;
  /** Mean wind at 2 m, m/s. */
  readonly wind2mMps: Float64Array;
  /** Mean global horizontal solar radiation, W/m². */
  readonly solarWm2: Float64Array;
  /** Cloud fraction 0-1: given, or inferred from radiation against clear sky and carried over the night. */
  readonly cloudFrac: Float64Array;
  /** Rain of the hour, mm. */
  readonly rainMm: Float64Array;
  /** Air pressure at the site, kPa (given, or standard atmosphere at the site's elevation). */
  readonly pressureKPa: Float64Array;
  /** 1 while the sun's centre is above the horizon for any part of the hour, else 0. */
  readonly daylight: Uint8Array;
}

/** Its arrays of one value an hour. */
const COLUMNS = [
  "airTempC",
  "vapourPressureKPa",
  "wind2mMps",
  "solarWm2",
  "cloudFrac",
  "rainMm",
  "pressureKPa",
  "daylight",
] as const satisfies readonly (keyof HourlyWeather)[];
type HourlyColumns = Pick<HourlyWeather, (typeof COLUMNS)[number]>;

/** Whether two weathers that begin together are alike in their first hours. */
export function alikeUntil(one: HourlyWeather, other: HourlyWeather, hours: number): boolean {
  return COLUMNS.every((name) => {
    for (let i = 0; i < hours; i++) if (one[name][i] !== other[name][i]) return false;
    return true;
  });
}

/** Every column of a weather, each by the same rule; the name tells which, for a rule that takes from another weather too. */
export function mapColumns(
  weather: HourlyWeather,
  map: <T extends Float64Array | Uint8Array>(column: T, name: keyof HourlyColumns) => T,
): HourlyColumns {
  return {
    airTempC: map(weather.airTempC, "airTempC"),
    vapourPressureKPa: map(weather.vapourPressureKPa, "vapourPressureKPa"),
    wind2mMps: map(weather.wind2mMps, "wind2mMps"),
    solarWm2: map(weather.solarWm2, "solarWm2"),
    cloudFrac: map(weather.cloudFrac, "cloudFrac"),
    rainMm: map(weather.rainMm, "rainMm"),
    pressureKPa: map(weather.pressureKPa, "pressureKPa"),
    daylight: map(weather.daylight, "daylight"),
  };
}

/** A series made ready for the model: what is usable, and everything that was assumed to make it so. */
export interface PreparedWeather {
  readonly weather: HourlyWeather;
  /** End of the last usable hour; the rest follows a gap over 3 h or an hour whose rain is unknown. */
  readonly usableUntilUtcMs: number;
  /** Which column ends the usable hours, and when, in words; null where the series is usable to its end. */
  readonly usableEndReason: string | null;
  /** Hours with any missing value in the series as given. */
  readonly missingHours: number;
  /** Hours of which some value was interpolated. */
  readonly filledHours: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly WeatherWarning[];
  /** Marks of all hours of the series: those given, and what the preparation filled, estimated or assumed. */
  readonly marks: Marks;
}
