import type { CrewJobAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import {
  barLengthPx,
  DRY_BELOW_MM,
  type RainBar,
  rainBetween,
  rainBlocks,
  type Scale,
} from "../board/calendar.ts";
import { mayRain } from "../board/rain-odds.ts";
import { type FarmDay, utcMs } from "../format/farm-time.ts";
import { isBegun } from "./job-key.ts";

/** Rain over the calendar of a crew and in the hours of its works, as often as the members of the forecast have it. */

/** In so many of the forecasts, 0-1, and more the rain is drawn in full. */
const OFTEN = 0.5;

export interface CrewRainBar extends RainBar {
  /** In fewer than half of the forecasts. */
  readonly seldom: boolean;
}

interface RainThen {
  /** In how many of the forecasts it rains then. */
  readonly wet: number;
  /** Forecasts whose rain is known then. */
  readonly of: number;
  /** Mean of them, mm. */
  readonly meanMm: number;
}

/** Each member as weather of its own; without members the one series. */
function forecastsOf(series: WeatherSeries): readonly WeatherSeries[] {
  const rains = (series.members ?? []).flatMap(({ rainMm }) => (rainMm === undefined ? [] : [rainMm]));
  if (rains.length === 0) return [series];
  return rains.map((rainMm) => ({ ...series, hours: { ...series.hours, rainMm } }));
}

/** How often it rains between two moments; null where no forecast knows. */
function rainThen(forecasts: readonly WeatherSeries[], fromMs: number, toMs: number): RainThen | null {
  const known = forecasts.map((one) => rainBetween(one, fromMs, toMs)).filter((mm) => mm !== null);
  if (known.length === 0) return null;
  return {
    wet: known.filter((mm) => mm >= DRY_BELOW_MM).length,
    of: known.length,
    meanMm: known.reduce((sum, mm) => sum + mm, 0) / known.length,
  };
}

/** Rain in blocks of three hours: as long as the mean over the forecasts, and pale where fewer than half have any. */
export function crewRain(
  series: WeatherSeries,
  days: readonly FarmDay[],
  scale: Scale,
  stripPx: number,
): CrewRainBar[] {
  const forecasts = forecastsOf(series);
  return rainBlocks(days).flatMap(([fromMs, toMs]) => {
    const rain = rainThen(forecasts, fromMs, toMs);
    if (rain === null || !mayRain(rain.wet / rain.of)) return [];
    return [
      {
        x0: scale.x(fromMs),
        x1: scale.x(toMs),
        rainMm: rain.meanMm,
        lengthPx: barLengthPx(rain.meanMm, stripPx),
        seldom: rain.wet / rain.of < OFTEN,
      },
    ];
  });
}

/**
 * "rain in 2 of 5 forecasts then", of the weather of the work's own place; null where none has any, and of no work or one
 * that has begun.
 */
export function rainWords(
  { sites, fields }: Pick<CrewPlanRequest, "sites" | "fields">,
  job: Pick<CrewJobAnswer, "fieldId" | "startUtc" | "endUtc"> | null,
  nowUtc: string,
): string | null {
  const field = fields.find(({ id }) => id === job?.fieldId);
  const series = sites[field?.siteId ?? ""]?.series;
  if (job === null || series === undefined || isBegun(job, nowUtc)) return null;
  const rain = rainThen(forecastsOf(series), utcMs(job.startUtc), utcMs(job.endUtc));
  if (rain === null || rain.wet === 0) return null;
  return rain.of === 1 ? "rain in the forecast then" : `rain in ${rain.wet} of ${rain.of} forecasts then`;
}

/** Whose rain stands over the calendar: that of the first place. */
export function whoseRain(sites: CrewPlanRequest["sites"]): {
  readonly forecasts: number;
  readonly place: string | null;
} {
  const [first] = Object.entries(sites);
  if (first === undefined) return { forecasts: 1, place: null };
  const [id, { series, name }] = first;
  return {
    forecasts: forecastsOf(series).length,
    place: Object.keys(sites).length > 1 ? name || id : null,
  };
}
