import { HOUR_MS } from "./clock.ts";
import { fahrenheitDoubt } from "./fahrenheit-doubts.ts";
import type { WeatherSeries } from "./series.ts";
import { shown } from "./shown.ts";
import { PLAIN_TELLING, type WeatherTelling } from "./telling.ts";
import type { WeatherWarning } from "./warnings.ts";
import { zoneDoubt } from "./zone-doubts.ts";

/** What is possible but odd enough to be said: nothing here changes a value. */

/** Measured radiation may stand above the clear-sky mean at the edge of a cloud, and the label may be a few minutes out. */
const BRIGHT = { ratio: 1.1, allowanceWm2: 60 } as const;

/** A clear hour in the dark means a clock or a place that is wrong. */
const DARK_ALLOWANCE_WM2 = 20;

function brightHours(
  series: WeatherSeries,
  startUtcMs: number,
  clearSkyWm2: Float64Array,
  telling: WeatherTelling,
): WeatherWarning[] {
  const solar = series.hours.solarWm2;
  if (solar === undefined) return [];
  let bright = 0;
  let dark = 0;
  let brightest = { hour: -1, excess: 0 };
  for (let i = 0; i < clearSkyWm2.length; i++) {
    const value = solar[i];
    if (typeof value !== "number") continue;
    const clear = clearSkyWm2[i] as number;
    if (clear === 0) {
      if (value > DARK_ALLOWANCE_WM2) dark++;
      continue;
    }
    const excess = value - (BRIGHT.ratio * clear + BRIGHT.allowanceWm2);
    if (excess <= 0) continue;
    bright++;
    if (excess > brightest.excess) brightest = { hour: i, excess };
  }
  const warnings: WeatherWarning[] = [];
  if (bright > 0) {
    const { hour } = brightest;
    const limit = BRIGHT.ratio * (clearSkyWm2[hour] as number) + BRIGHT.allowanceWm2;
    warnings.push({
      code: "radiation-above-clear-sky",
      text:
        `Radiation above a clear sky in ${bright} ${bright === 1 ? "hour" : "hours"}, most at ` +
        `${telling.time(startUtcMs + hour * HOUR_MS)}: ${shown(Number(solar[hour]))} W/m², at most ${limit.toFixed(0)} W/m² expected. ` +
        "Check the clock, the place and the unit.",
    });
  }
  if (dark > 0) {
    warnings.push({
      code: "radiation-in-the-dark",
      text:
        `Radiation above ${DARK_ALLOWANCE_WM2} W/m² in ${dark} ${dark === 1 ? "hour" : "hours"} with the sun down. ` +
        "Check the clock and the place.",
    });
  }
  return warnings;
}

/** Everything odd about a checked series. */
export function seriesDoubts(
  series: WeatherSeries,
  startUtcMs: number,
  clearSkyWm2: Float64Array,
  telling: WeatherTelling = PLAIN_TELLING,
): WeatherWarning[] {
  const degrees = fahrenheitDoubt(series, startUtcMs, telling);
  const zone = zoneDoubt(series.site, startUtcMs);
  return [
    ...(zone === null ? [] : [{ code: "zone-far-from-longitude" as const, text: zone }]),
    ...brightHours(series, startUtcMs, clearSkyWm2, telling),
    ...(degrees === null ? [] : [{ code: "temperatures-in-fahrenheit" as const, text: degrees }]),
  ];
}
