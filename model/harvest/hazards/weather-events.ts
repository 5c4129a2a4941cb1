import { DAY_MS, HOUR_MS } from "../../weather/clock.ts";
import type { HourlyWeather } from "../../weather/hourly.ts";
import { groundOf } from "../drying-store.ts";
import { FROST, NITRATE_CLOCK } from "./records.ts";

/** A spell of weather, UTC ms; `amount` is mm of rain, or the lowest temperature in °C. */
export interface WeatherEvent {
  readonly startUtcMs: number;
  readonly endUtcMs: number;
  readonly amount: number;
}

/** The hours that hold, joined where no more than `gapH` hours lie between them. */
function joined(weather: HourlyWeather, holds: (i: number) => boolean, gapH: number): [number, number][] {
  const runs: [number, number][] = [];
  for (let i = 0; i < weather.count; i++) {
    if (!holds(i)) continue;
    const open = runs.at(-1);
    if (open && i - open[1] <= gapH) open[1] = i + 1;
    else runs.push([i, i + 1]);
  }
  return runs;
}

function event(weather: HourlyWeather, [from, to]: readonly [number, number], amount: number): WeatherEvent {
  return {
    startUtcMs: weather.startUtcMs + from * HOUR_MS,
    endUtcMs: weather.startUtcMs + to * HOUR_MS,
    amount,
  };
}

/** Rain of the 24 hours up to the end of hour i, mm; hours before the weather count as dry. */
function rain24Mm(weather: HourlyWeather, i: number): number {
  let sum = 0;
  for (let k = Math.max(0, i - 23); k <= i; k++) sum += weather.rainMm[k] as number;
  return sum;
}

/** Rains that restart growth: from the hour in which the amount of 24 hours is reached to the last that still rains. */
export function growthRains(weather: HourlyWeather): WeatherEvent[] {
  const least = NITRATE_CLOCK.restartRainMm.value;
  const rains = (i: number) => (weather.rainMm[i] as number) > 0 && rain24Mm(weather, i) >= least - 1e-9;
  return joined(weather, rains, 24).map((run) => event(weather, run, rain24Mm(weather, run[1] - 1)));
}

/**
 * Those of the rains that end a drought, and every later one while the clock they started runs.
 *
 * @param drought whether the crop was short of water when the weather begins: true, false, or null where nobody has
 *   said. Null counts as true until a rain is seen: the stricter reading.
 */
export function restartRains(rains: readonly WeatherEvent[], drought: boolean | null): WeatherEvent[] {
  const dryMs = NITRATE_CLOCK.droughtDays.value * DAY_MS;
  const clockMs = NITRATE_CLOCK.longDays.value * DAY_MS;
  const restarts: WeatherEvent[] = [];
  rains.forEach((rain, i) => {
    const before = rains[i - 1];
    const endsDrought = before ? rain.startUtcMs - before.endUtcMs >= dryMs : drought !== false;
    const running = restarts.at(-1);
    const resets = running !== undefined && rain.startUtcMs - running.endUtcMs < clockMs;
    if (endsDrought || resets) restarts.push(rain);
  });
  return restarts;
}

/** Nights (or days) with frost; hours no more than 12 apart are one. */
export function frosts(weather: HourlyWeather): (WeatherEvent & { readonly killing: boolean })[] {
  const { lightC, killingC, killingHours } = FROST;
  return joined(weather, (i) => (weather.airTempC[i] as number) <= lightC.value, 12).map((run) => {
    const temps = Array.from(weather.airTempC.slice(run[0], run[1]));
    const killing = temps.filter((tempC) => tempC <= killingC.value).length >= killingHours.value;
    return { ...event(weather, run, Math.min(...temps)), killing };
  });
}

/** Spans at whose every hour the daylight of the last two days was dull. */
export function dullSpells(weather: HourlyWeather): WeatherEvent[] {
  const { dullHours, dullCloudFrac } = NITRATE_CLOCK;
  const meanCloud = (i: number): number => {
    let sum = 0;
    let lit = 0;
    for (let k = i - dullHours.value + 1; k <= i; k++) {
      if (weather.daylight[k] !== 1) continue;
      sum += weather.cloudFrac[k] as number;
      lit++;
    }
    return lit === 0 ? 0 : sum / lit;
  };
  const dull = (i: number) => i >= dullHours.value - 1 && meanCloud(i) >= dullCloudFrac.value;
  return joined(weather, dull, 1).map((run) => event(weather, run, meanCloud(run[1] - 1)));
}

/** Hours in which the soil does not carry machines: the very hours that close a window for that reason. */
export function wetSoilSpells(weather: HourlyWeather, maxRainMm24h: number): WeatherEvent[] {
  const { soilFit } = groundOf(weather, maxRainMm24h);
  return joined(weather, (i) => soilFit[i] === 0, 1).map((run) =>
    event(weather, run, rain24Mm(weather, run[0])),
  );
}

/** Days from the last of the rains that had ended by a moment; null where none had. */
export function daysSinceRestart(restarts: readonly WeatherEvent[], atUtcMs: number): number | null {
  const ended = restarts.filter(({ endUtcMs }) => endUtcMs <= atUtcMs).at(-1);
  return ended ? (atUtcMs - ended.endUtcMs) / DAY_MS : null;
}
