import { HOUR_MS } from "./clock.ts";
import type { HourlyWeather } from "./hourly.ts";

const COLUMNS = [
  "airTempC",
  "vapourPressureKPa",
  "wind2mMps",
  "solarWm2",
  "cloudFrac",
  "rainMm",
  "pressureKPa",
  "daylight",
] as const;

function joined<T extends Float64Array | Uint8Array>(past: T, main: T, hours: number): T {
  const column = main.slice() as T;
  column.set(past.subarray(0, hours));
  return column;
}

/**
 * A weather whose hours that begin before a moment are those of another.
 *
 * @param past begins with the main one and has all its hours
 * @returns the main one itself where the two are alike until then
 */
export function withPast(main: HourlyWeather, past: HourlyWeather, untilUtcMs: number): HourlyWeather {
  const hours = Math.min(main.count, Math.max(0, Math.ceil((untilUtcMs - main.startUtcMs) / HOUR_MS)));
  const alike = COLUMNS.every((name) => {
    const [one, other] = [main[name], past[name]];
    for (let i = 0; i < hours; i++) if (one[i] !== other[i]) return false;
    return true;
  });
  if (alike) return main;
  return {
    ...main,
    airTempC: joined(past.airTempC, main.airTempC, hours),
    vapourPressureKPa: joined(past.vapourPressureKPa, main.vapourPressureKPa, hours),
    wind2mMps: joined(past.wind2mMps, main.wind2mMps, hours),
    solarWm2: joined(past.solarWm2, main.solarWm2, hours),
    cloudFrac: joined(past.cloudFrac, main.cloudFrac, hours),
    rainMm: joined(past.rainMm, main.rainMm, hours),
    pressureKPa: joined(past.pressureKPa, main.pressureKPa, hours),
    daylight: joined(past.daylight, main.daylight, hours),
  };
}
