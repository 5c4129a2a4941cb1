import { HOUR_MS } from "./clock.ts";
import { alikeUntil, type HourlyWeather, mapColumns } from "./hourly.ts";

/**
 * A weather whose hours that begin before a moment are those of another.
 *
 * @param past begins with the main one and has all its hours
 * @returns the main one itself where the two are alike until then
 */
export function withPast(main: HourlyWeather, past: HourlyWeather, untilUtcMs: number): HourlyWeather {
  const hours = Math.min(main.count, Math.max(0, Math.ceil((untilUtcMs - main.startUtcMs) / HOUR_MS)));
  if (alikeUntil(main, past, hours)) return main;
  const joined = mapColumns(main, (column, name) => {
    const own = column.slice() as typeof column;
    own.set(past[name].subarray(0, hours));
    return own;
  });
  return { ...main, ...joined };
}
