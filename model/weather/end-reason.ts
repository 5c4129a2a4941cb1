import { HOUR_MS } from "./clock.ts";
import { LONGEST_FILLED_GAP_H } from "./limits.ts";
import type { WeatherColumns, WeatherSeries } from "./series.ts";
import { PLAIN_TELLING, type WeatherTelling } from "./telling.ts";

/** Why the usable hours of a series end: which column has no value, from when, for how long. */

/** The working columns that the model cannot do without; NaN is missing. */
export type NeededColumns = Readonly<
  Record<"airTempC" | "vapour" | "wind" | "solarWm2" | "rain", Float64Array>
>;

/** The column as the series names it. Humidity is unknown wherever it would have to be turned by an unknown temperature. */
function nameOf(
  key: keyof NeededColumns,
  hours: WeatherColumns,
  hour: number,
  { column }: WeatherTelling,
): string | null {
  switch (key) {
    case "airTempC":
      return column("airTempC");
    case "vapour":
      if (typeof hours.relHumidityPct[hour] === "number") return null;
      return hours.dewPointC === undefined
        ? column("relHumidityPct")
        : `${column("relHumidityPct")} (or ${column("dewPointC")})`;
    case "wind":
      return column("windSpeedMps");
    case "solarWm2":
      return column(hours.solarWm2 === undefined ? "cloudPct" : "solarWm2");
    case "rain":
      return column("rainMm");
  }
}

function runLength(values: Float64Array, from: number): number {
  let end = from;
  while (end < values.length && Number.isNaN(values[end] as number)) end++;
  return end - from;
}

/** What is missing in the hour `at`, the first after the usable ones, in words without a full stop. */
export function endReason(
  { hours }: WeatherSeries,
  needed: NeededColumns,
  startUtcMs: number,
  at: number,
  telling: WeatherTelling = PLAIN_TELLING,
): string {
  const from = telling.time(startUtcMs + at * HOUR_MS);
  const namesByGap = new Map<string, string[]>();
  for (const key of ["airTempC", "vapour", "wind", "solarWm2", "rain"] as const) {
    const run = runLength(needed[key], at);
    const name = run === 0 ? null : nameOf(key, hours, at, telling);
    if (name === null) continue;
    const length = run === 1 ? `in the hour from ${from}` : `in ${run} hours from ${from}`;
    const toTheEnd = at + run === hours.startUtc.length;
    const rule =
      key === "rain"
        ? " (rain is never interpolated)"
        : toTheEnd
          ? ", to the end"
          : ` (at most ${LONGEST_FILLED_GAP_H} h are interpolated)`;
    const gap = `missing ${length}${rule}`;
    namesByGap.set(gap, [...(namesByGap.get(gap) ?? []), name]);
  }
  return [...namesByGap].map(([gap, names]) => `${names.join(", ")} ${gap}`).join("; ");
}
