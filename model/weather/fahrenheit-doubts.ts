import { median } from "simple-statistics";
import { HOUR_MS, localOffsetsMs } from "./clock.ts";
import type { WeatherSeries } from "./series.ts";

/** Temperatures that fit every range of °C and still look like °F: for asking, never for changing a value. */

/** Daily ranges of temperature above this on the median are rare even in deserts; degrees Fahrenheit stretch them by 1.8. */
const WIDE_DAILY_RANGE_C = 26;

/**
 * Air this much warmer than its dew point on the median, day and night together, is desert air, or °F. Assumed: hot
 * deserts reach it, so it is asked and not refused.
 */
const WIDE_DEPRESSION_C = 25;

function wideDays(series: WeatherSeries, startUtcMs: number): string | null {
  const temps = series.hours.airTempC;
  const offsets = localOffsetsMs(series.site.timeZone, startUtcMs, temps.length);
  const ranges: number[] = [];
  let day = Number.NaN;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let seen = 0;
  const close = () => {
    if (seen >= 20) ranges.push(high - low);
    low = Number.POSITIVE_INFINITY;
    high = Number.NEGATIVE_INFINITY;
    seen = 0;
  };
  for (let i = 0; i < temps.length; i++) {
    const localDay = Math.floor((startUtcMs + i * HOUR_MS + (offsets[i] as number)) / (24 * HOUR_MS));
    if (localDay !== day) {
      close();
      day = localDay;
    }
    const value = temps[i];
    if (typeof value !== "number") continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
    seen++;
  }
  close();
  if (ranges.length < 3) return null;
  const range = median(ranges);
  if (range <= WIDE_DAILY_RANGE_C) return null;
  return `airTempC moves by ${range.toFixed(0)} °C a day on the median, more than ${WIDE_DAILY_RANGE_C} °C is rare anywhere. Is it in °F?`;
}

/** Where humidity is given the dew points it implies tell more, see unit-doubts.ts; this is for a dew point alone. */
function wideDepression({ hours }: WeatherSeries): string | null {
  const { airTempC, relHumidityPct, dewPointC = [] } = hours;
  if (relHumidityPct?.some((value) => value !== null)) return null;
  const depressions: number[] = [];
  airTempC.forEach((air, i) => {
    const dew = dewPointC[i];
    if (typeof air === "number" && typeof dew === "number") depressions.push(air - dew);
  });
  if (depressions.length === 0) return null;
  const typical = median(depressions);
  if (typical <= WIDE_DEPRESSION_C) return null;
  return `airTempC stands ${typical.toFixed(0)} °C above dewPointC on the median, more than ${WIDE_DEPRESSION_C} °C is rare outside deserts. Is it in °F?`;
}

/** Why the air temperature may be in °F, as a sentence; null where nothing speaks for it. */
export function fahrenheitDoubt(series: WeatherSeries, startUtcMs: number): string | null {
  return wideDepression(series) ?? wideDays(series, startUtcMs);
}
