import { HOUR_MS, localDays, startOfLocalDay } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { quantileOfSorted } from "./quantiles.ts";

/** From more than this on a day counts as wet, mm: the first step that chances of rain are told by. */
export const WET_DAY_MM = 1;

/** The chance that a day of the farm's calendar is wet, and how wet it may be. */
export interface RainDay {
  /** Local day, YYYY-MM-DD. */
  readonly dateLocal: string;
  /** Share of the weathers with more than `WET_DAY_MM` of rain in those hours of the day that they reach, 0-1. */
  readonly chance: number;
  /** Rain of those hours that 9 in 10 of the weathers stay under, mm. */
  readonly p90Mm: number;
}

type RainSeries = Pick<HourlyWeather, "startUtcMs" | "count" | "rainMm">;

function rainIn({ startUtcMs, count, rainMm }: RainSeries, fromMs: number, toMs: number): number {
  const from = Math.max(0, Math.round((fromMs - startUtcMs) / HOUR_MS));
  const to = Math.min(count, Math.round((toMs - startUtcMs) / HOUR_MS));
  let sum = 0;
  for (let i = from; i < to; i++) sum += rainMm[i] as number;
  return sum;
}

/**
 * The chance of rain on each local day that the span touches, over equally weighted weathers: members of a forecast or
 * widened copies of one. What has fallen already on the first day counts with what is to come.
 *
 * @throws RangeError without any weather
 */
export function rainDays(
  weathers: readonly RainSeries[],
  fromUtcMs: number,
  endUtcMs: number,
  zone: string,
): readonly RainDay[] {
  if (weathers.length === 0) throw new RangeError("rainDays: needs at least one weather, got 0");
  const days = localDays(fromUtcMs, endUtcMs, zone);
  const starts = days.map((day) => startOfLocalDay(zone, day));
  return days.map((dateLocal, k) => {
    const startMs = starts[k] as number;
    const toMs = Math.min(endUtcMs, starts[k + 1] ?? endUtcMs);
    const rains = Float64Array.from(weathers, (weather) => rainIn(weather, startMs, toMs)).sort();
    const wet = rains.filter((mm) => mm > WET_DAY_MM).length;
    return { dateLocal, chance: wet / weathers.length, p90Mm: quantileOfSorted(rains, 0.9) };
  });
}
