import { saturationVapourPressureKPa } from "../air.ts";
import { utcLabel } from "../labels.ts";
import { COLUMN_LIMITS, DEW_ABOVE_AIR_TOLERANCE_C } from "../limits.ts";
import type { ProblemList } from "../problems.ts";
import type { WeatherSeries } from "../series.ts";
import { shown } from "../shown.ts";
import { uploadSeries } from "../upload-series.ts";
import type { StationHours, StationValues } from "./hours.ts";
import { amountsOfCounter } from "./rain-counter.ts";
import type { StationPlace } from "./report.ts";
import type { WeatherRole } from "./roles.ts";

/** From the columns of a station to the quantities of a series: humidity of whatever kind, rain of whatever kind. */

type Columns = ReadonlyMap<WeatherRole, (number | null)[]>;

const EMPTY: readonly never[] = [];

/** Vapour pressure of each row: from humidity, else the dew point, else as given. */
function vapourOf(columns: Columns, count: number): (number | null)[] {
  const temp = columns.get("airTempC") ?? EMPTY;
  const humidity = columns.get("relHumidityPct") ?? EMPTY;
  const dew = columns.get("dewPointC") ?? EMPTY;
  const vapour = columns.get("vapourPressureKPa") ?? EMPTY;
  return Array.from({ length: count }, (_, i) => {
    const [t, rh, td, e] = [temp[i] ?? null, humidity[i] ?? null, dew[i] ?? null, vapour[i] ?? null];
    if (rh !== null && t !== null) return (rh / 100) * saturationVapourPressureKPa(t);
    return td === null ? e : saturationVapourPressureKPa(td);
  });
}

/** A dew point above the air is a fault of one of the two sensors; the air then counts as saturated. */
function tellDewAboveAir(columns: Columns, problems: ProblemList): void {
  if (columns.has("relHumidityPct")) return;
  const temp = columns.get("airTempC") ?? EMPTY;
  let above = 0;
  (columns.get("dewPointC") ?? EMPTY).forEach((dew, i) => {
    const air = temp[i] ?? null;
    if (dew !== null && air !== null && dew > air + DEW_ABOVE_AIR_TOLERANCE_C) above += 1;
  });
  if (above > 0)
    problems.warn(
      "dew-point-above-air",
      `In ${above} rows the dew point stands above the air temperature: the air counts as saturated there`,
      { column: "dewPointC" },
    );
}

/** A counter's rain by rows; its noise and its leaps are told. */
function rainOfCounter(
  readings: readonly (number | null)[],
  utcMs: Float64Array,
  problems: ProblemList,
): (number | null)[] {
  const { amounts, noise, odd } = amountsOfCounter(readings, COLUMN_LIMITS.rainMm.max);
  const column = { column: "rainTotalMm" };
  if (noise > 0)
    problems.warn(
      "counter-noise",
      `The rain counter falls a little and rises again in ${noise} rows: taken as its noise, not as rain`,
      column,
    );
  for (const { index, fromMm, toMm } of odd)
    problems.warn(
      "counter-leap",
      `The rain counter goes from ${shown(fromMm)} to ${shown(toMm)} mm at ${utcLabel(utcMs[index] ?? 0)}: neither rain nor a reset to zero; the rain of that row is missing`,
      column,
    );
  return amounts;
}

function rainOf(
  columns: Columns,
  utcMs: Float64Array,
  stepH: number,
  problems: ProblemList,
): (number | null)[] | null {
  const total = columns.get("rainTotalMm");
  if (total) return rainOfCounter(total, utcMs, problems);
  const rate = columns.get("rainRateMmH");
  if (rate) return rate.map((value) => (value === null ? null : value * stepH));
  return columns.get("rainMm") ?? null;
}

/** The quantities of each row. */
export function stationValues(
  columns: Columns,
  utcMs: Float64Array,
  stepH: number,
  problems: ProblemList,
): StationValues {
  const count = utcMs.length;
  tellDewAboveAir(columns, problems);
  const nulls = new Array<null>(count).fill(null);
  return {
    airTempC: columns.get("airTempC") ?? nulls,
    vapourKPa: vapourOf(columns, count),
    windSpeedMps: columns.get("windSpeedMps") ?? nulls,
    solarWm2: columns.get("solarWm2") ?? null,
    rainMm: rainOf(columns, utcMs, stepH, problems),
    cloudPct: columns.get("cloudPct") ?? null,
    pressureHpa: columns.get("pressureHpa") ?? null,
  };
}

export function seriesOf(hours: StationHours, place: StationPlace): WeatherSeries {
  const count = hours.airTempC.length;
  const empty = () => new Array<number | null>(count).fill(null);
  const round = (column: readonly (number | null)[]) =>
    column.map((value) => (value === null ? null : Math.round(value * 1e4) / 1e4));
  return uploadSeries(place, hours.startMs, count, {
    airTempC: round(hours.airTempC),
    relHumidityPct: round(hours.relHumidityPct),
    windSpeedMps: round(hours.windSpeedMps),
    rainMm: hours.rainMm === null ? empty() : round(hours.rainMm),
    ...(hours.solarWm2 === null ? {} : { solarWm2: round(hours.solarWm2) }),
    ...(hours.cloudPct === null ? {} : { cloudPct: round(hours.cloudPct) }),
    ...(hours.pressureHpa === null ? {} : { pressureHpa: round(hours.pressureHpa) }),
  });
}
