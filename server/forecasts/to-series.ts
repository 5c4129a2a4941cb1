import {
  type Column,
  type ColumnName,
  clearSkyHours,
  cloudTransmission,
  DAY_MS,
  HOUR_MS,
  type Mark,
  type SeriesOrigin,
  type Site,
  utcLabel,
  type WeatherHours,
  type WeatherMember,
  type WeatherSeries,
} from "../../model/weather/index.ts";
import { UpstreamFailure } from "./failure.ts";
import { allNull, requirePlausible, sitePressureHpa } from "./hours.ts";
import type { Note, ProviderAnswer } from "./provider.ts";

/** What every service's answer goes through on its way to a series: checks, radiation from cloud, pressure, marks. */

export interface Place {
  readonly latitude: number;
  readonly longitude: number;
  readonly timeZone: string;
  /** As the user corrected it; null = what the service says. */
  readonly elevationM: number | null;
}

/** A forecast older than this is refused, h: edge caches have served grids of days ago. */
export const OLDEST_FORECAST_H = 24;
/** A cut needs so many hours of weather after it; a forecast that holds fewer is of no use, h. */
const LEAST_AHEAD_H = 24;
/** Wind of every service here is that of 10 m. */
const WIND_HEIGHT_M = 10;
/** Digits that are kept: far below any service's own rounding. */
const DECIMALS = 1e4;

/** Refuses what is too old, or does not reach far enough ahead to be of use. */
export function requireUseful(answer: ProviderAnswer, nowMs: number): void {
  const { issuedMs } = answer;
  if (issuedMs !== null && nowMs - issuedMs > OLDEST_FORECAST_H * HOUR_MS) {
    const ageH = Math.floor((nowMs - issuedMs) / HOUR_MS);
    const message = `the forecast was issued ${ageH} h ago (${utcLabel(issuedMs)}), must be at most ${OLDEST_FORECAST_H} h old`;
    throw new UpstreamFailure({ code: "too-old", message });
  }
  const { airTempC, relHumidityPct, windSpeedMps, rainMm } = answer.hours;
  const first = Math.max(0, Math.floor((nowMs - answer.startMs) / HOUR_MS));
  let ahead = 0;
  for (let i = first; i < airTempC.length; i += 1) {
    const whole = [airTempC, relHumidityPct, windSpeedMps, rainMm].every(
      (column) => (column[i] ?? null) !== null,
    );
    if (whole) ahead += 1;
  }
  if (ahead >= LEAST_AHEAD_H) return;
  const message = `holds ${ahead} whole hours from now on, must hold at least ${LEAST_AHEAD_H}`;
  throw new UpstreamFailure({ code: "too-short", message });
}

function rounded(column: Column): Column {
  return column.map((value) => (value === null ? null : Math.round(value * DECIMALS) / DECIMALS));
}

/** Mean radiation of each hour from its cloud cover; dark hours are 0 whatever the cloud. */
function solarOfCloud(answer: ProviderAnswer, place: Place): { column: Column; marks: (Mark | null)[] } {
  const count = answer.hours.airTempC.length;
  const cloud = answer.hours.cloudPct ?? new Array<null>(count).fill(null);
  const { clearSkyWm2 } = clearSkyHours(answer.startMs, count, place.latitude, place.longitude);
  const column: (number | null)[] = [];
  const marks: (Mark | null)[] = [];
  for (let i = 0; i < count; i += 1) {
    const clear = clearSkyWm2[i] ?? 0;
    const pct = cloud[i] ?? null;
    const known = clear === 0 || pct !== null;
    column.push(known ? clear * (clear === 0 ? 1 : cloudTransmission((pct ?? 0) / 100)) : null);
    marks.push(known && clear > 0 ? "cloud-estimate" : null);
  }
  return { column, marks };
}

/** Rounds a member as the hours are. */
function memberOut({ model, ...columns }: WeatherMember): WeatherMember {
  const out: Partial<Record<ColumnName, Column>> = {};
  for (const [name, column] of Object.entries(columns) as [ColumnName, Column | undefined][]) {
    if (column !== undefined) out[name] = rounded(column);
  }
  return { model: model ?? null, ...out };
}

export interface SeriesWithNotes {
  readonly series: WeatherSeries;
  readonly notes: readonly Note[];
}

export function toSeries(answer: ProviderAnswer, place: Place, origin: SeriesOrigin): SeriesWithNotes {
  const { hours, marks, startMs } = answer;
  const notes = [...answer.notes];
  const elevationM = place.elevationM ?? answer.elevationM;
  if (elevationM === null) {
    const text = "The service gives no elevation for this place: 0 m is assumed; correct it.";
    notes.push({ code: "elevation-assumed", text });
  }
  const site: Site = { ...place, elevationM: elevationM ?? 0 };
  const columns: Partial<Record<ColumnName, Column>> = {};
  const out: Partial<Record<ColumnName, readonly (Mark | null)[]>> = {};
  const put = (name: ColumnName, column: Column | null, columnMarks?: readonly (Mark | null)[]) => {
    if (column === null) return;
    requirePlausible(name, column, name);
    columns[name] = rounded(column);
    // What is missing carries no mark, and a column without any mark is left out.
    const kept = columnMarks?.map((mark, i) => (column[i] === null ? null : mark));
    if (kept?.some((mark) => mark !== null)) out[name] = kept;
  };
  put("airTempC", hours.airTempC, marks.airTempC);
  put("relHumidityPct", hours.relHumidityPct, marks.relHumidityPct);
  put("dewPointC", hours.dewPointC, marks.dewPointC);
  put("windSpeedMps", hours.windSpeedMps, marks.windSpeedMps);
  put("rainMm", hours.rainMm, marks.rainMm);
  put("cloudPct", hours.cloudPct, marks.cloudPct);
  put("rainChancePct", hours.rainChancePct);
  put("rainChancePeriodH", hours.rainChancePeriodH);
  if (hours.solarWm2 !== null) {
    put("solarWm2", hours.solarWm2, marks.solarWm2);
  } else if (hours.cloudPct !== null && !allNull(hours.cloudPct)) {
    const estimate = solarOfCloud(answer, place);
    put("solarWm2", estimate.column, estimate.marks);
    notes.push({
      code: "cloud-estimate",
      text: "This service has no radiation: it is estimated from cloud cover, about 100 W/m² out in a single hour.",
    });
  }
  if (hours.pressureHpa !== null) {
    put("pressureHpa", hours.pressureHpa, marks.pressureHpa);
  } else if (hours.seaLevelHpa !== null) {
    const pressure = hours.seaLevelHpa.map((hpa) =>
      hpa === null ? null : sitePressureHpa(hpa, site.elevationM),
    );
    put(
      "pressureHpa",
      pressure,
      pressure.map(() => "assumed" as const),
    );
  }
  const coarse = (marks.rainMm ?? []).filter((mark) => mark === "coarse").length;
  if (coarse > 0) {
    const text = `Rain of ${coarse} hours is spread evenly from longer periods (marked coarse): a dry hour within one is not known.`;
    notes.push({ code: "coarse-rain", text });
  }
  const startUtc = hours.airTempC.map((_, i) => utcLabel(startMs + i * HOUR_MS));
  const empty = startUtc.map(() => null);
  const seriesHours: WeatherHours = {
    startUtc,
    airTempC: empty,
    relHumidityPct: empty,
    windSpeedMps: empty,
    rainMm: empty,
    ...columns,
  };
  const series: WeatherSeries = {
    site,
    windHeightM: WIND_HEIGHT_M,
    origin,
    provider: answer.provider,
    model: answer.model,
    issuedUtc: answer.issuedMs === null ? null : utcLabel(answer.issuedMs),
    fetchedUtc: utcLabel(answer.fetchedMs),
    nativeStepHours: answer.nativeStepHours,
    attribution: answer.attribution,
    hours: seriesHours,
    marks: out,
    ...(answer.members.length > 0 ? { members: answer.members.map(memberOut) } : {}),
  };
  return { series, notes };
}

/** The hours of a series that touch the span [fromMs, toMs); marks with them. Members are not carried over. */
export function cutToSpan(series: WeatherSeries, fromMs: number, toMs: number): WeatherSeries {
  const first = Date.parse(series.hours.startUtc[0] ?? "");
  const from = Math.max(0, Math.floor((fromMs - first) / HOUR_MS));
  const to = Math.max(from, Math.ceil((toMs - first) / HOUR_MS));
  const cut = <T>(column: readonly T[]) => column.slice(from, to);
  const { members: _members, ...rest } = series;
  const hours = Object.fromEntries(
    Object.entries(series.hours).map(([name, column]) => [name, cut<string | number | null>(column)]),
  );
  const marks = Object.fromEntries(
    Object.entries(series.marks ?? {}).map(([name, column]) => [name, cut(column)]),
  );
  return { ...rest, hours: { ...series.hours, ...hours }, marks };
}

/** Age in words, from the time of issue where it is known. */
export function ageInWords(series: WeatherSeries, nowMs: number): string {
  const sinceMs = nowMs - Date.parse(series.issuedUtc ?? series.fetchedUtc ?? "");
  const days = sinceMs / DAY_MS;
  return days >= 2 ? `${Math.floor(days)} days` : `${Math.max(0, Math.round(sinceMs / HOUR_MS))} h`;
}
