import type { Limit } from "../limits.ts";
import type { ColumnName } from "./series.ts";

/** Where a farm can be, and how its wind may be measured. */
export const SITE_LIMITS = {
  latitude: { min: -90, max: 90, unit: "degrees north" },
  longitude: { min: -180, max: 180, unit: "degrees east" },
  /** From the shore of the Dead Sea to above the highest fields. */
  elevationM: { min: -450, max: 6000, unit: "m above the sea" },
} as const satisfies Record<string, Limit>;

/** The logarithmic wind profile over short grass is used between these heights. */
export const WIND_HEIGHT_LIMIT: Limit = { min: 0.5, max: 100, unit: "m above ground" };

/** Hours between the values that the weather's maker really computed or measured. */
export const NATIVE_STEP_LIMIT: Limit = { min: 0, max: 24, unit: "h", minExcluded: true };

/**
 * What an hour's value can be on Earth. Common quality-control bounds of agricultural weather networks,
 * from memory; rain and wind stand near the world's records for an hour.
 */
export const COLUMN_LIMITS = {
  airTempC: { min: -60, max: 60, unit: "°C" },
  /** Sensors read up to 103 % in saturated air; what is above 100 counts as 100. */
  relHumidityPct: { min: 0, max: 103, unit: "%" },
  windSpeedMps: { min: 0, max: 60, unit: "m/s" },
  rainMm: { min: 0, max: 150, unit: "mm in the hour" },
  /** Sensors read slightly below zero at night; that counts as 0. */
  solarWm2: { min: -10, max: 1400, unit: "W/m²" },
  cloudPct: { min: 0, max: 100, unit: "%" },
  dewPointC: { min: -80, max: 40, unit: "°C" },
  rainChancePct: { min: 0, max: 100, unit: "%" },
  rainChancePeriodH: { min: 1, max: 48, unit: "h" },
  /** At the site, not reduced to the sea. */
  pressureHpa: { min: 450, max: 1100, unit: "hPa at the site" },
} as const satisfies Record<ColumnName, Limit>;

/** The longest run of missing hours that is interpolated, h. */
export const LONGEST_FILLED_GAP_H = 3;

/** A dew point may stand above the air temperature by this much: two sensors disagree, °C. */
export const DEW_ABOVE_AIR_TOLERANCE_C = 0.5;

/** The highest dew points ever reported are near 35 °C (Persian Gulf; from memory); above this an hour is impossible. */
export const HIGHEST_DEW_POINT_C = 36;
