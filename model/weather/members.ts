import { relHumidityFrac, saturationVapourPressureKPa, vapourPressureKPa } from "./air.ts";
import { COLUMN_NAMES } from "./checks.ts";
import type { Column, ColumnName, Marks, WeatherHours, WeatherSeries } from "./series.ts";

/** Humidity of an hour at a member's own temperature, with the vapour pressure of the shared hours, %. */
function humidityAt(
  tempC: number | null,
  sharedTempC: number | null,
  sharedHumidityPct: number | null,
): number | null {
  if (tempC === null || sharedTempC === null || sharedHumidityPct === null) return null;
  return 100 * relHumidityFrac(tempC, vapourPressureKPa(sharedTempC, sharedHumidityPct / 100));
}

/** Per cent of humidity from temperature and dew point. */
function humidityOfDewPoint(tempC: number | null, dewC: number | null): number | null {
  if (tempC === null || dewC === null) return null;
  return 100 * relHumidityFrac(tempC, saturationVapourPressureKPa(dewC));
}

function memberHumidity(shared: WeatherHours, temp: Column, dew: Column | undefined): Column {
  if (dew !== undefined) return temp.map((tempC, i) => humidityOfDewPoint(tempC, dew[i] ?? null));
  return temp.map(
    (tempC, i) =>
      humidityAt(tempC, shared.airTempC[i] ?? null, shared.relHumidityPct[i] ?? null) ??
      humidityOfDewPoint(tempC, shared.dewPointC?.[i] ?? null),
  );
}

/** A member's column with what was observed in place of what the member says; the column itself where nothing was. */
function withObserved(own: Column, shared: Column | undefined, marks: Marks[ColumnName]): Column {
  if (shared === undefined || !marks?.includes("observed")) return own;
  return own.map((value, i) => (marks[i] === "observed" ? (shared[i] ?? value) : value));
}

/**
 * One member of a series as a series of its own: its columns laid over the shared hours. Where it brings a temperature
 * but no humidity, the vapour pressure of the shared hours is kept, not their relative humidity. What the marks say was
 * observed stands in every member.
 *
 * @throws RangeError when there is no such member
 */
export function memberSeries(series: WeatherSeries, index: number): WeatherSeries {
  const member = series.members?.[index];
  if (member === undefined) {
    throw new RangeError(
      `memberSeries: index must be in [0, ${(series.members?.length ?? 0) - 1}], got ${index}`,
    );
  }
  const shared = series.hours;
  const observed = (name: ColumnName, own: Column) => withObserved(own, shared[name], series.marks?.[name]);
  const columns: Partial<Record<ColumnName, Column>> = {};
  for (const name of COLUMN_NAMES) {
    const own = member[name];
    const column = own === undefined ? shared[name] : observed(name, own);
    if (column !== undefined) columns[name] = column;
  }
  const { airTempC, relHumidityPct } = member;
  const { dewPointC } = member.dewPointC === undefined ? {} : columns;
  if (relHumidityPct === undefined && (airTempC !== undefined || member.dewPointC !== undefined)) {
    const own = memberHumidity(shared, columns.airTempC ?? shared.airTempC, dewPointC);
    columns.relHumidityPct = observed("relHumidityPct", own);
  }
  // A dew point of the shared hours would contradict the member's own air.
  if (member.dewPointC === undefined && (relHumidityPct !== undefined || airTempC !== undefined)) {
    delete columns.dewPointC;
  }
  const { members: _members, marks, ...rest } = series;
  const kept = Object.fromEntries(
    Object.entries(marks ?? {}).flatMap(([name, column]) => {
      if (columns[name as ColumnName] === shared[name as ColumnName]) return [[name, column]];
      const stays = column.map((mark) => (mark === "observed" ? mark : null));
      return columns[name as ColumnName] && stays.includes("observed") ? [[name, stays]] : [];
    }),
  );
  return {
    ...rest,
    model: member.model ?? series.model,
    hours: {
      ...columns,
      startUtc: shared.startUtc,
      airTempC: columns.airTempC ?? shared.airTempC,
      relHumidityPct: columns.relHumidityPct ?? shared.relHumidityPct,
      windSpeedMps: columns.windSpeedMps ?? shared.windSpeedMps,
      rainMm: columns.rainMm ?? shared.rainMm,
    },
    marks: kept,
  };
}
