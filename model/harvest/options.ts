import { LEAST_HOURS_AFTER_CUT } from "../drying/drydown.ts";
import { addDays, HOUR_MS, localDays, localOffsetMs, startOfLocalDay, utcOfLocal } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { Span } from "./work-hours.ts";
import { insideOneDay } from "./work-hours.ts";

/** One moment to start the mower, and the cut whose course stands for the whole field. */
export interface CutMoment {
  readonly cutUtcMs: number;
  /** Middle of the mowing, rounded to the nearest hour of the weather (half hours later). */
  readonly courseCutUtcMs: number;
  /** Of a cut that was made: windows count from here on; absent = from the cut. */
  readonly openFromMs?: number;
}

export interface CutMoments {
  readonly moments: readonly CutMoment[];
  /** Cut hours that had to be left out because the mowing does not fit the working hours. */
  readonly outsideWork: number;
}

/** The middle of the mowing, rounded to the nearest hour of the weather. */
export function courseCutUtcMs(weather: HourlyWeather, cutUtcMs: number, mowHours: number): number {
  const hours = (cutUtcMs - weather.startUtcMs) / HOUR_MS + mowHours / 2;
  return weather.startUtcMs + Math.round(hours) * HOUR_MS;
}

/** The moments of a local day at which the clock shows these hours: none for a skipped hour, the first for a doubled. */
function momentsOfDay(zone: string, dayKey: string, hours: readonly number[]): number[] {
  const startMs = startOfLocalDay(zone, dayKey);
  // Asking the zone about each hour is slow; on a day without a clock change the hours simply follow one another.
  const plain =
    startOfLocalDay(zone, addDays(dayKey, 1)) - startMs === 24 * HOUR_MS &&
    localOffsetMs(zone, startMs) === localOffsetMs(zone, startMs + 12 * HOUR_MS);
  if (plain) return hours.map((hour) => startMs + hour * HOUR_MS);
  return hours.flatMap((hour) => {
    const local = utcOfLocal(zone, dayKey, hour);
    if (local.kind === "skipped") return [];
    return [local.kind === "one" ? local.utcMs : local.firstUtcMs];
  });
}

/**
 * Every cut hour of every local day that can be offered: not before now, at least 24 h of weather after it, and the
 * mowing of the whole area inside one working day. A local hour that a clock change skips is dropped, one that it
 * doubles is taken the first time.
 */
export function cutMoments(
  weather: HourlyWeather,
  days: readonly Span[],
  cutHours: readonly number[],
  nowUtcMs: number,
  mowHours: number,
): CutMoments {
  const { timeZone } = weather.site;
  const endMs = weather.startUtcMs + weather.count * HOUR_MS;
  const lastMs = endMs - LEAST_HOURS_AFTER_CUT * HOUR_MS;
  const firstMs = Math.max(nowUtcMs, weather.startUtcMs);
  const hours = [...new Set(cutHours)].sort((a, b) => a - b);
  const moments: CutMoment[] = [];
  let outsideWork = 0;
  for (const dayKey of localDays(firstMs, lastMs + 1, timeZone)) {
    for (const cutUtcMs of momentsOfDay(timeZone, dayKey, hours)) {
      if (cutUtcMs < firstMs || cutUtcMs > lastMs) continue;
      if (!insideOneDay(days, cutUtcMs, cutUtcMs + Math.round(mowHours * HOUR_MS))) {
        outsideWork++;
        continue;
      }
      moments.push({ cutUtcMs, courseCutUtcMs: courseCutUtcMs(weather, cutUtcMs, mowHours) });
    }
  }
  return { moments: moments.sort((a, b) => a.cutUtcMs - b.cutUtcMs), outsideWork };
}
