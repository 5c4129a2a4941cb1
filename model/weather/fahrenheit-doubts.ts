import { median } from "simple-statistics";
import { HOUR_MS, localOffsetsMs } from "./clock.ts";
import { DEW_ABOVE_AIR_TOLERANCE_C } from "./limits.ts";
import type { WeatherSeries } from "./series.ts";
import { PLAIN_TELLING, type WeatherTelling } from "./telling.ts";

/** Temperatures that fit every range of °C and still look like °F: for asking, never for changing a value. */

/** Daily ranges of temperature above this on the median are rare even in deserts; degrees Fahrenheit stretch them by 1.8. */
const WIDE_DAILY_RANGE_C = 26;

/**
 * Air this much warmer than its dew point on the median, day and night together, is desert air, or °F. Assumed: hot
 * deserts reach it, so it is asked and not refused.
 */
const WIDE_DEPRESSION_C = 25;

/**
 * Hours hotter than this, or nights that on the median cool no further, are known from a few hot deserts; spring days
 * in degrees Fahrenheit look the same. Both assumed: a farm in such a desert answers once.
 */
const HOT_HOUR_C = 43;
const HOT_NIGHT_C = 30;

/** Lowest and highest temperature of a local day. */
interface DayOfTemps {
  readonly low: number;
  readonly high: number;
}

/** Days of which at least 20 hours are there. */
function wholeDays(series: WeatherSeries, startUtcMs: number): DayOfTemps[] {
  const temps = series.hours.airTempC;
  const offsets = localOffsetsMs(series.site.timeZone, startUtcMs, temps.length);
  const days: DayOfTemps[] = [];
  let day = Number.NaN;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let seen = 0;
  const close = () => {
    if (seen >= 20) days.push({ low, high });
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
  return days;
}

function wideDays(days: readonly DayOfTemps[], { column, degreesC }: WeatherTelling): string | null {
  if (days.length < 3) return null;
  const range = median(days.map(({ low, high }) => high - low));
  if (range <= WIDE_DAILY_RANGE_C) return null;
  return `${column("airTempC")} moves by ${degreesC(range, 0)} a day on the median, more than ${degreesC(WIDE_DAILY_RANGE_C)} is rare anywhere. Is it in °F?`;
}

function hotAir(
  { hours }: WeatherSeries,
  days: readonly DayOfTemps[],
  { column, tempC }: WeatherTelling,
): string | null {
  let hottest = Number.NEGATIVE_INFINITY;
  for (const value of hours.airTempC) if (value !== null && value > hottest) hottest = value;
  if (hottest > HOT_HOUR_C) {
    return `${column("airTempC")} reaches ${tempC(hottest)}, above ${tempC(HOT_HOUR_C)} is rare outside hot deserts. Is it in °F?`;
  }
  if (days.length === 0) return null;
  const night = median(days.map(({ low }) => low));
  if (night <= HOT_NIGHT_C) return null;
  return `${column("airTempC")} falls no lower than ${tempC(night)} a day on the median, above ${tempC(HOT_NIGHT_C)} is rare outside hot deserts. Is it in °F?`;
}

/** Where humidity is given the dew points it implies tell more, see unit-doubts.ts; this is for a dew point alone. */
function wideDepression({ hours }: WeatherSeries, { column, degreesC }: WeatherTelling): string | null {
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
  return `${column("airTempC")} stands ${degreesC(typical, 0)} above ${column("dewPointC")} on the median, more than ${degreesC(WIDE_DEPRESSION_C)} is rare outside deserts. Is it in °F?`;
}

/** A key stays as it is written; a word begins its sentence. */
function sentenceStart(text: string, telling: WeatherTelling): string {
  return telling === PLAIN_TELLING ? text : text.charAt(0).toUpperCase() + text.slice(1);
}

/** Why the air temperature may be in °F, as a sentence; null where nothing speaks for it. */
export function fahrenheitDoubt(
  series: WeatherSeries,
  startUtcMs: number,
  telling: WeatherTelling = PLAIN_TELLING,
): string | null {
  const days = wholeDays(series, startUtcMs);
  const doubt = wideDepression(series, telling) ?? wideDays(days, telling) ?? hotAir(series, days, telling);
  return doubt && sentenceStart(doubt, telling);
}

/** Why a dew point beside an air temperature that was converted from °F may be in °F too; null where nothing does. */
export function dewPointDoubt({ hours }: WeatherSeries): string | null {
  let above = 0;
  hours.airTempC.forEach((air, i) => {
    const dew = hours.dewPointC?.[i];
    if (typeof air === "number" && typeof dew === "number" && dew > air + DEW_ABOVE_AIR_TOLERANCE_C) above++;
  });
  if (above === 0) return null;
  return `In ${above} ${above === 1 ? "hour" : "hours"} it would stand above the air temperature, which it cannot.`;
}
