import type { Issue, Outcome } from "../limits.ts";
import { relHumidityFrac, saturationVapourPressureKPa, vapourPressureKPa } from "./air.ts";
import { HOUR_MS } from "./clock.ts";
import { utcLabel, utcLabelMs } from "./labels.ts";
import { LONGEST_FILLED_GAP_H } from "./limits.ts";
import { memberSeries } from "./members.ts";
import type { ColumnName, Mark, Marks, WeatherColumns, WeatherMember, WeatherSeries } from "./series.ts";
import { PLAIN_TELLING, type WeatherTelling } from "./telling.ts";
import { windTo2mFactor } from "./wind.ts";

/**
 * A station's past and a forecast's future as one series. Each value is the station's where it has one, else the
 * forecast's, and is marked so; an hour that neither has stays null and is told.
 */

export interface Seam {
  /** First hour after the last that the station has, ISO. */
  readonly observedUntilUtc: string;
  /** First hour of the forecast, ISO. */
  readonly forecastFromUtc: string;
  /** Hours between the two that neither has. */
  readonly gapHours: number;
  /** Hours that both have; the station's are used. */
  readonly sharedHours: number;
  /** Mean of forecast minus station over the hours that both have; null where none has both. */
  readonly forecastMinusObserved: {
    readonly airTempC: number | null;
    readonly relHumidityPct: number | null;
  };
}

export interface JoinedWeather {
  readonly series: WeatherSeries;
  readonly seam: Seam;
  /** What whoever uses the series should know. */
  readonly notes: readonly string[];
}

export interface JoinOptions {
  /** Observed hours kept before the forecast begins. Soil and swath look back ten days; assumed. */
  readonly pastHours?: number;
  /** How its sentences are written; absent = as the API speaks. */
  readonly telling?: WeatherTelling;
}

const PAST_HOURS = 15 * 24;
/** Farther apart in time the two do not belong together; assumed. */
const LONGEST_GAP_H = 30 * 24;
/** Farther apart in place the two are two weathers; assumed, degrees of latitude or of longitude at the equator. */
const FAR_APART_DEG = 0.5;

const COLUMNS: readonly ColumnName[] = [
  "airTempC",
  "relHumidityPct",
  "windSpeedMps",
  "rainMm",
  "solarWm2",
  "cloudPct",
  "dewPointC",
  "pressureHpa",
];
const PLAIN = COLUMNS.filter((name) => name !== "relHumidityPct" && name !== "dewPointC");

type Values = Partial<WeatherColumns>;

/** One source on the joined hours: `at` of a joined hour, or null outside. */
interface Source {
  readonly at: (name: ColumnName, hour: number) => number | null;
  readonly mark: (name: ColumnName, hour: number) => Mark | null;
}

function sourceOf(values: Values, offset: number, windFactor: number, marks: Marks = {}): Source {
  return {
    at: (name, hour) => {
      const value = values[name]?.[hour - offset] ?? null;
      return value !== null && name === "windSpeedMps" ? value * windFactor : value;
    },
    mark: (name, hour) => marks[name]?.[hour - offset] ?? null,
  };
}

/** Vapour pressure of an hour, from its humidity and temperature or its dew point, kPa. */
function vapourAt({ at }: Source, hour: number): number | null {
  const [temp, humidity, dew] = [at("airTempC", hour), at("relHumidityPct", hour), at("dewPointC", hour)];
  if (temp !== null && humidity !== null) return vapourPressureKPa(temp, humidity / 100);
  return dew === null ? null : saturationVapourPressureKPa(dew);
}

/** The humidity at a temperature that may be another source's: the vapour is kept, not the per cent. */
function humidityAt(source: Source, hour: number, tempC: number | null): number | null {
  const own = source.at("airTempC", hour);
  const given = source.at("relHumidityPct", hour);
  if (given !== null && (own === null || own === tempC)) return given;
  const vapour = vapourAt(source, hour);
  if (vapour === null || tempC === null) return null;
  return Math.min(100, Math.round(relHumidityFrac(tempC, vapour) * 1e5) / 1e3);
}

type Cell = { readonly value: number | null; readonly from: Source | null };

function cell(name: ColumnName, hour: number, first: Source, second: Source): Cell {
  if (name === "relHumidityPct") {
    const tempC = first.at("airTempC", hour) ?? second.at("airTempC", hour);
    const observed = humidityAt(first, hour, tempC);
    if (observed !== null) return { value: observed, from: first };
    const other = humidityAt(second, hour, tempC);
    return { value: other, from: other === null ? null : second };
  }
  if (name === "dewPointC") {
    // Of the same source as the humidity: the two must agree.
    const { from } = cell("relHumidityPct", hour, first, second);
    return { value: from?.at(name, hour) ?? null, from };
  }
  const observed = first.at(name, hour);
  if (observed !== null) return { value: observed, from: first };
  const other = second.at(name, hour);
  return { value: other, from: other === null ? null : second };
}

const hoursOf = (count: number) => Array.from({ length: count }, (_, i) => i);

function joinMember(
  forecast: WeatherSeries,
  index: number,
  observed: Source,
  offset: number,
  windFactor: number,
  count: number,
): WeatherMember {
  const { model, ...own } = forecast.members?.[index] ?? {};
  const source = sourceOf(memberSeries(forecast, index).hours, offset, windFactor);
  // The member's humidity goes with its own temperature, whichever of the two it brings.
  const isMoist = own.airTempC !== undefined || own.dewPointC !== undefined;
  const names = COLUMNS.filter((name) =>
    name === "relHumidityPct"
      ? isMoist || own[name] !== undefined
      : name !== "dewPointC" && own[name] !== undefined,
  );
  const columns = Object.fromEntries(
    names.map((name) => [name, hoursOf(count).map((hour) => cell(name, hour, observed, source).value)]),
  );
  return { ...(model === undefined ? {} : { model }), ...columns };
}

const mean = (values: readonly number[]) =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

const refuse = (code: string, message: string): Outcome<never> => ({
  ok: false,
  issues: [{ path: "observed", code, message: `observed: ${message}` } satisfies Issue],
});

/**
 * Joins a station's hours and a forecast's. The wind of the forecast is brought to the station's height, and the
 * place is the station's.
 */
export function joinWeather(
  observed: WeatherSeries,
  forecast: WeatherSeries,
  { pastHours = PAST_HOURS, telling = PLAIN_TELLING }: JoinOptions = {},
): Outcome<JoinedWeather> {
  const observedMs = utcLabelMs(observed.hours.startUtc[0] ?? "");
  const forecastMs = utcLabelMs(forecast.hours.startUtc[0] ?? "");
  if (Number.isNaN(observedMs) || Number.isNaN(forecastMs))
    return refuse("no-hours", "the station or the forecast has no hours");
  const shiftMs = forecastMs - observedMs;
  if (shiftMs % HOUR_MS !== 0) return refuse("off-the-hour", "its hours do not begin when the forecast's do");
  const observedEndMs = observedMs + observed.hours.startUtc.length * HOUR_MS;
  const forecastEndMs = forecastMs + forecast.hours.startUtc.length * HOUR_MS;
  const gapHours = Math.max(0, (forecastMs - observedEndMs) / HOUR_MS);
  if (gapHours > LONGEST_GAP_H || observedMs >= forecastEndMs)
    return refuse(
      "too-far-apart",
      `ends ${telling.time(observedEndMs)}, and the forecast covers ${telling.time(forecastMs)} to ${telling.time(forecastEndMs)}; at most ${LONGEST_GAP_H / 24} days may lie between`,
    );
  const startMs = Math.max(Math.min(observedMs, forecastMs), forecastMs - pastHours * HOUR_MS);
  const endMs = Math.max(observedEndMs, forecastEndMs);
  const count = (endMs - startMs) / HOUR_MS;
  const windFactor =
    forecast.windHeightM === observed.windHeightM
      ? 1
      : windTo2mFactor(forecast.windHeightM) / windTo2mFactor(observed.windHeightM);
  const offset = (forecastMs - startMs) / HOUR_MS;
  const station = sourceOf(observed.hours, (observedMs - startMs) / HOUR_MS, 1, observed.marks);
  const other = sourceOf(forecast.hours, offset, windFactor, forecast.marks);

  const columns: Partial<Record<ColumnName, (number | null)[]>> = {};
  const marks: Partial<Record<ColumnName, (Mark | null)[]>> = {};
  for (const name of COLUMNS) {
    const cells = hoursOf(count).map((hour) => cell(name, hour, station, other));
    const needed =
      name === "airTempC" || name === "relHumidityPct" || name === "windSpeedMps" || name === "rainMm";
    if (!needed && cells.every(({ value }) => value === null)) continue;
    columns[name] = cells.map(({ value }) => value);
    marks[name] = cells.map(({ value, from }, hour) => {
      if (value === null || from === null) return null;
      // What is said of a value already, such as that it is estimated, says more than where it came from.
      return from.mark(name, hour) ?? (from === station ? "observed" : "forecast");
    });
  }
  for (const name of ["rainChancePct", "rainChancePeriodH"] as const) {
    const chance = forecast.hours[name];
    if (chance === undefined) continue;
    columns[name] = hoursOf(count).map((hour) =>
      station.at("rainMm", hour) === null ? (chance[hour - offset] ?? null) : null,
    );
  }

  const isIn = (source: Source) => (hour: number) => PLAIN.some((name) => source.at(name, hour) !== null);
  const both = hoursOf(count).filter((hour) => isIn(station)(hour) && isIn(other)(hour));
  const differences = (name: "airTempC" | "relHumidityPct") =>
    mean(
      both.flatMap((hour) => {
        const [a, b] = [station.at(name, hour), other.at(name, hour)];
        return a === null || b === null ? [] : [b - a];
      }),
    );
  const seam: Seam = {
    observedUntilUtc: utcLabel(observedEndMs),
    forecastFromUtc: utcLabel(forecastMs),
    gapHours,
    sharedHours: both.length,
    forecastMinusObserved: {
      airTempC: differences("airTempC"),
      relHumidityPct: differences("relHumidityPct"),
    },
  };
  const empty = () => new Array<number | null>(count).fill(null);
  const series: WeatherSeries = {
    site: observed.site,
    windHeightM: observed.windHeightM,
    origin: "joined",
    provider: forecast.provider ?? null,
    model: forecast.model ?? null,
    issuedUtc: forecast.issuedUtc ?? null,
    fetchedUtc: forecast.fetchedUtc ?? null,
    nativeStepHours: Math.max(observed.nativeStepHours ?? 1, forecast.nativeStepHours ?? 1),
    attribution: [...(observed.attribution ?? []), ...(forecast.attribution ?? [])],
    hours: {
      ...columns,
      startUtc: hoursOf(count).map((hour) => utcLabel(startMs + hour * HOUR_MS)),
      airTempC: columns.airTempC ?? empty(),
      relHumidityPct: columns.relHumidityPct ?? empty(),
      windSpeedMps: columns.windSpeedMps ?? empty(),
      rainMm: columns.rainMm ?? empty(),
    },
    marks,
    ...(forecast.members === undefined
      ? {}
      : {
          members: forecast.members.map((_, index) =>
            joinMember(forecast, index, station, offset, windFactor, count),
          ),
        }),
  };
  return {
    ok: true,
    value: { series, seam, notes: notesOf(observed, forecast, seam, startMs > observedMs, telling) },
  };
}

function notesOf(
  observed: WeatherSeries,
  forecast: WeatherSeries,
  seam: Seam,
  isCut: boolean,
  telling: WeatherTelling,
): string[] {
  const notes = [
    `Measured until ${telling.time(utcLabelMs(seam.observedUntilUtc))}, forecast from then on; where both have an hour, the measured one is used.`,
  ];
  if (seam.gapHours > 0) {
    const ends =
      seam.gapHours > LONGEST_FILLED_GAP_H
        ? " No course runs across it: the weather is usable up to it only."
        : "";
    notes.push(
      `${seam.gapHours} hours between the station's last and the forecast's first are in neither.${ends}`,
    );
  }
  if (observed.hours.rainMm.every((value) => value === null))
    notes.push("The station has no rain: its hours carry the forecast's where that has any.");
  const { airTempC } = seam.forecastMinusObserved;
  if (airTempC !== null && seam.sharedHours >= 6)
    notes.push(
      `Over ${seam.sharedHours} hours that both have, the forecast stands ${airTempC >= 0 ? "+" : ""}${telling.degreesC(airTempC, 1)} from the station; it is not corrected for that.`,
    );
  if (observed.windHeightM !== forecast.windHeightM)
    notes.push(
      `The forecast's wind is brought from ${telling.heightM(forecast.windHeightM)} to the station's ${telling.heightM(observed.windHeightM)}.`,
    );
  const apart = Math.max(
    Math.abs(observed.site.latitude - forecast.site.latitude),
    Math.abs(observed.site.longitude - forecast.site.longitude),
  );
  if (apart > FAR_APART_DEG && apart < 360 - FAR_APART_DEG)
    notes.push(`Station and forecast stand ${apart.toFixed(1)} degrees apart: are both of this farm?`);
  if (isCut)
    notes.push("Measured hours from longer before the forecast than soil and swath look back are left out.");
  return notes;
}
