import type { Outcome } from "../limits.ts";
import { saturationVapourPressureKPa, standardPressureKPa } from "./air.ts";
import { checkSeries } from "./checks.ts";
import { HOUR_MS } from "./clock.ts";
import { endReason, type NeededColumns } from "./end-reason.ts";
import { countPresent, fillShortGaps, toValues } from "./gaps.ts";
import type { HourlyWeather, PreparedWeather } from "./hourly.ts";
import { LONGEST_FILLED_GAP_H } from "./limits.ts";
import { mergeMarks } from "./marks.ts";
import { clearSkyHours } from "./radiation.ts";
import type { WeatherColumns, WeatherSeries } from "./series.ts";
import { seriesDoubts } from "./series-doubts.ts";
import { completeCloud, completeSolar, givenCloud, UNKNOWN_CLOUD_FRAC } from "./sky.ts";
import { PLAIN_TELLING, type WeatherTelling } from "./telling.ts";
import type { WeatherWarning } from "./warnings.ts";
import { windTo2mFactor } from "./wind.ts";

/** What is said when no hour has any rain value. */
export const NO_RAIN_WARNING =
  "No rain was given: assumed dry throughout. A shower would change every answer.";

/** Air drier than this is taken as this: no sensor measures less, and a dew point must exist. */
const DRIEST_RH_FRAC = 0.01;

/** Vapour pressure of each hour, kPa: from temperature and humidity, else from the dew point; NaN where neither is. */
function vapourOfHours(hours: WeatherColumns, count: number): { vapour: Float64Array; above100: number } {
  const vapour = new Float64Array(count).fill(Number.NaN);
  let above100 = 0;
  for (let i = 0; i < count; i++) {
    const tempC = hours.airTempC[i];
    const humidity = hours.relHumidityPct?.[i];
    const dewC = hours.dewPointC?.[i];
    if (typeof humidity === "number" && typeof tempC === "number") {
      if (humidity > 100) above100++;
      const rhFrac = Math.min(1, Math.max(DRIEST_RH_FRAC, humidity / 100));
      vapour[i] = rhFrac * saturationVapourPressureKPa(tempC);
    } else if (typeof dewC === "number") {
      vapour[i] = saturationVapourPressureKPa(dewC);
    }
  }
  return { vapour, above100 };
}

/** Hours in which a value that the model needs was not given. A rain column that is wholly absent is told apart. */
function countMissing(series: WeatherSeries, count: number, noRain: boolean): number {
  const { airTempC, relHumidityPct, dewPointC, windSpeedMps, solarWm2, cloudPct, rainMm } = series.hours;
  const there = (column: readonly (number | null)[] | undefined, i: number) =>
    typeof column?.[i] === "number";
  let missing = 0;
  for (let i = 0; i < count; i++) {
    const whole =
      there(airTempC, i) &&
      (there(relHumidityPct, i) || there(dewPointC, i)) &&
      there(windSpeedMps, i) &&
      (there(solarWm2, i) || there(cloudPct, i)) &&
      (noRain || there(rainMm, i));
    if (!whole) missing++;
  }
  return missing;
}

function plural(n: number, unit: string): string {
  return `${n} ${unit}${n === 1 ? "" : "s"}`;
}

/** The first unbroken run of hours in which every needed value is there. */
function usableSpan(columns: readonly Float64Array[], count: number): { from: number; to: number } {
  const known = (i: number) => columns.every((column) => !Number.isNaN(column[i] as number));
  let from = 0;
  while (from < count && !known(from)) from++;
  let to = from;
  while (to < count && known(to)) to++;
  return { from, to };
}

/**
 * Checks a series and makes it ready for the model.
 *
 * Gaps of up to 3 h are interpolated (humidity through vapour pressure, radiation through its share of clear sky), rain
 * never. Missing radiation comes from the cloud cover, missing cloud from the radiation, missing pressure from the
 * elevation. What is usable ends before the first longer gap and before the first hour of unknown rain. Everything that
 * was assumed is said in `assumptions`, everything that should be looked at in `warnings`.
 *
 * Members are checked, not prepared: see `memberSeries`.
 *
 * @param telling how its sentences are written; absent = as the API speaks
 */
export function prepareWeather(
  series: WeatherSeries,
  telling: WeatherTelling = PLAIN_TELLING,
): Outcome<PreparedWeather> {
  const { issues, startUtcMs, count } = checkSeries(series);
  if (issues.length > 0) return { ok: false, issues };
  const { hours, site, windHeightM } = series;
  const assumptions: string[] = [];
  const warnings: WeatherWarning[] = [];
  const flags = () => new Uint8Array(count);

  const tempFilled = flags();
  const airTempC = toValues(hours.airTempC, count);
  fillShortGaps(airTempC, tempFilled);

  const vapourFilled = flags();
  const { vapour, above100 } = vapourOfHours(hours, count);
  fillShortGaps(vapour, vapourFilled);
  for (let i = 0; i < count; i++) {
    if (!Number.isNaN(airTempC[i] as number)) {
      const saturation = saturationVapourPressureKPa(airTempC[i] as number);
      if ((vapour[i] as number) > saturation) vapour[i] = saturation;
    }
  }
  if (above100 > 0)
    assumptions.push(`${plural(above100, "hour")} with humidity above 100 % were taken as 100 %.`);

  const windFilled = flags();
  const wind = toValues(hours.windSpeedMps, count);
  fillShortGaps(wind, windFilled);
  if (windHeightM !== 2) {
    const factor = windTo2mFactor(windHeightM);
    for (let i = 0; i < count; i++) wind[i] = (wind[i] as number) * factor;
    assumptions.push(
      `Wind at ${telling.heightM(windHeightM)} was brought to ${telling.heightM(2)} over short grass by the logarithmic profile (times ${factor.toFixed(3)}).`,
    );
  }

  const rain = toValues(hours.rainMm, count);
  const noRain = countPresent(rain) === 0;
  if (noRain) {
    rain.fill(0);
    warnings.push({ code: "no-rain", text: NO_RAIN_WARNING });
  }

  const { clearSkyWm2, daylight } = clearSkyHours(startUtcMs, count, site.latitude, site.longitude);
  const cloudFilled = flags();
  const cloudFrac = givenCloud(toValues(hours.cloudPct, count), cloudFilled);
  const givenSolar = toValues(hours.solarWm2, count);
  const solar = completeSolar(givenSolar, cloudFrac, cloudFilled, clearSkyWm2);

  const needed: NeededColumns = { airTempC, vapour, wind, solarWm2: solar.solarWm2, rain };
  const { from, to } = usableSpan(Object.values(needed), count);
  if (from === to) {
    const path = "weather.hours";
    const message = `${path}: no hour has temperature, humidity, wind, radiation (or cloud) and rain together; at least 1 must`;
    return { ok: false, issues: [{ path, code: "no-usable-hours", message }] };
  }
  if (from > 0) {
    const at = telling.time(startUtcMs + from * HOUR_MS);
    warnings.push({
      code: "starts-late",
      text: `The first ${from === 1 ? "hour lacks" : `${from} hours lack`} a value that is needed: the weather is used from ${at}.`,
    });
  }
  const usableEndReason = to === count ? null : endReason(series, needed, startUtcMs, to, telling);
  if (usableEndReason !== null) {
    const left = count - to;
    warnings.push({
      code: "ends-early",
      text:
        `The weather is used until ${telling.time(startUtcMs + to * HOUR_MS)}: ${usableEndReason}. ` +
        `${plural(left, "hour")} from there ${left === 1 ? "is" : "are"} left out.`,
    });
  }

  const cloud = completeCloud(cloudFrac, solar.solarWm2, clearSkyWm2);
  const pressure = toValues(hours.pressureHpa, count);
  fillShortGaps(pressure, flags());
  const standardKPa = standardPressureKPa(site.elevationM);
  let unknownPressure = 0;
  for (let i = 0; i < count; i++) {
    if (Number.isNaN(pressure[i] as number)) {
      unknownPressure++;
      pressure[i] = standardKPa;
    } else {
      pressure[i] = (pressure[i] as number) / 10;
    }
  }

  let filledHours = 0;
  let fromCloud = 0;
  let nightBlanks = 0;
  for (let i = from; i < to; i++) {
    if (tempFilled[i] || vapourFilled[i] || windFilled[i] || solar.interpolated[i]) filledHours++;
    else if (solar.fromCloud[i] && cloudFilled[i]) filledHours++;
    if (solar.fromCloud[i]) fromCloud++;
    if (Number.isNaN(givenSolar[i] as number) && clearSkyWm2[i] === 0) nightBlanks++;
  }
  if (filledHours > 0) {
    assumptions.push(
      `${plural(filledHours, "hour")} had a gap of at most ${LONGEST_FILLED_GAP_H} h filled by interpolation.`,
    );
  }
  if (fromCloud > 0) {
    assumptions.push(
      `Radiation of ${plural(fromCloud, "daylight hour")} was estimated from cloud cover (clear sky of Haurwitz, cloud of Kasten and Czeplak): single hours may be 100 W/m² out.`,
    );
  } else if (nightBlanks > 0) {
    assumptions.push(`Radiation was blank in ${plural(nightBlanks, "hour")} of darkness and taken as 0.`);
  }
  if (cloud.unknown) {
    assumptions.push(
      `No hour of sun high enough to judge the cloud by, and no cloud given: cover of ${UNKNOWN_CLOUD_FRAC * 100} % assumed throughout.`,
    );
  } else if (cloud.inferred > 0) {
    assumptions.push(
      "Cloud cover was inferred from radiation against clear sky by day and carried over the nights.",
    );
  }
  if (unknownPressure > 0) {
    assumptions.push(
      `Air pressure was taken as the standard ${standardKPa.toFixed(1)} kPa at ${telling.heightM(site.elevationM)} in ${plural(unknownPressure, "hour")}.`,
    );
  }
  warnings.push(...seriesDoubts(series, startUtcMs, clearSkyWm2, telling));

  const weather: HourlyWeather = {
    site,
    startUtcMs: startUtcMs + from * HOUR_MS,
    count: to - from,
    airTempC: airTempC.slice(from, to),
    vapourPressureKPa: vapour.slice(from, to),
    wind2mMps: wind.slice(from, to),
    solarWm2: solar.solarWm2.slice(from, to),
    cloudFrac: cloudFrac.slice(from, to),
    rainMm: rain.slice(from, to),
    pressureKPa: pressure.slice(from, to),
    daylight: daylight.slice(from, to),
  };
  const marks = mergeMarks(series.marks, [
    ["airTempC", tempFilled, "interpolated"],
    ["relHumidityPct", vapourFilled, "interpolated"],
    ["windSpeedMps", windFilled, "interpolated"],
    ["cloudPct", cloudFilled, "interpolated"],
    ["solarWm2", solar.fromCloud, "cloud-estimate"],
    ["solarWm2", solar.interpolated, "interpolated"],
    ["rainMm", noRain ? flags().fill(1) : flags(), "assumed"],
  ]);
  return {
    ok: true,
    value: {
      weather,
      usableUntilUtcMs: startUtcMs + to * HOUR_MS,
      usableEndReason,
      missingHours: countMissing(series, count, noRain),
      filledHours,
      assumptions,
      warnings,
      marks,
    },
  };
}
