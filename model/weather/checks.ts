import { type Issue, type Limit, limitInWords, limitIssue, within } from "../limits.ts";
import { HOUR_MS, isKnownTimeZone } from "./clock.ts";
import { utcLabel, utcLabelMs } from "./labels.ts";
import { COLUMN_LIMITS, DEW_ABOVE_AIR_TOLERANCE_C, SITE_LIMITS, WIND_HEIGHT_LIMIT } from "./limits.ts";
import type { Column, ColumnName, Site, WeatherColumns, WeatherSeries } from "./series.ts";
import { shown } from "./shown.ts";
import { unitSuspicions } from "./unit-doubts.ts";

/** Everything that can be wrong with a series, told by path, value and limit. Paths begin with `weather.`. */

export const COLUMN_NAMES = Object.keys(COLUMN_LIMITS) as readonly ColumnName[];

/** Values of one column that are named one by one; the rest is counted. */
const NAMED_PER_COLUMN = 5;

/** What a series is, once its labels were found in order. */
export interface CheckedSeries {
  readonly issues: readonly Issue[];
  /** Start of the first hour; NaN where the labels are faulty. */
  readonly startUtcMs: number;
  readonly count: number;
}

/** Checks the place: `path` is that of the site, for instance `weather.site`; "" where its keys stand alone. */
export function checkSite(site: Site, path: string): Issue[] {
  const issues: Issue[] = [];
  const at = (key: keyof Site) => (path === "" ? key : `${path}.${key}`);
  for (const key of ["latitude", "longitude", "elevationM"] as const) {
    const issue = limitIssue(at(key), site[key], SITE_LIMITS[key]);
    if (issue) issues.push(issue);
  }
  if (!isKnownTimeZone(site.timeZone)) {
    issues.push({
      path: at("timeZone"),
      code: "unknown-time-zone",
      message: `${at("timeZone")}: got "${site.timeZone}", must be an IANA zone name such as America/Chicago`,
    });
  }
  return issues;
}

function andMore(issues: Issue[], path: string, code: string, total: number): void {
  if (total <= NAMED_PER_COLUMN) return;
  issues.push({
    path,
    code,
    message: `${path}: ${total - NAMED_PER_COLUMN} more values are wrong in the same way`,
  });
}

function checkLabels(labels: readonly string[], issues: Issue[]): number {
  const path = "weather.hours.startUtc";
  if (!Array.isArray(labels) || labels.length === 0) {
    issues.push({ path, code: "empty", message: `${path}: got no hours, must hold at least 1` });
    return Number.NaN;
  }
  const first = utcLabelMs(labels[0] as string);
  let before = Number.NaN;
  let wrong = 0;
  let lastCode = "";
  for (let i = 0; i < labels.length; i++) {
    const label = labels[i] as string;
    const ms = utcLabelMs(label);
    const problem = labelProblem(label, ms, before);
    before = Number.isNaN(ms) ? before : ms;
    if (problem === null) continue;
    wrong++;
    lastCode = problem.code;
    if (wrong <= NAMED_PER_COLUMN) {
      const at = `${path}[${i}]`;
      issues.push({ path: at, code: problem.code, message: `${at}: got "${label}", ${problem.rule}` });
    }
  }
  andMore(issues, path, lastCode, wrong);
  return wrong === 0 ? first : Number.NaN;
}

function labelProblem(label: string, ms: number, before: number): { code: string; rule: string } | null {
  if (Number.isNaN(ms)) {
    return {
      code: "not-a-utc-time",
      rule: `must be a UTC time to the minute that ends in Z, such as 2026-07-01T05:00:00Z${
        typeof label === "string" && /[+-]\d{2}:?\d{2}$/.test(label) ? " (convert the offset to UTC)" : ""
      }`,
    };
  }
  if (Number.isNaN(before) || ms === before + HOUR_MS) return null;
  if (ms === before) return { code: "duplicate-hour", rule: "the same hour as the one before it" };
  if (ms < before)
    return { code: "not-increasing", rule: `must come after ${utcLabel(before)}: sort the hours` };
  return {
    code: "not-contiguous",
    rule: `must be one hour after ${utcLabel(before)}: give missing hours as null values`,
  };
}

/** What is said of a value outside its column's range: the value, the limit, and the likely unit. */
export function rangeWords(name: ColumnName, value: number, limit: Limit): string {
  const hint =
    (name === "airTempC" || name === "dewPointC") && value > limit.max
      ? " (is the column in °F? °C = (°F - 32) / 1.8)"
      : "";
  return `got ${shown(value, limit)}, ${limitInWords(limit)}${hint}`;
}

/** Checks the length and the values of one column. */
export function checkColumn(
  name: ColumnName,
  column: Column,
  count: number,
  path: string,
  issues: Issue[],
): void {
  if (!Array.isArray(column)) {
    issues.push({
      path,
      code: "not-a-list",
      message: `${path}: must be a list with one value or null for each hour`,
    });
    return;
  }
  if (column.length !== count) {
    issues.push({
      path,
      code: "wrong-length",
      message: `${path}: got ${column.length} values, must have one for each of the ${count} hours of startUtc`,
    });
  }
  const limit = COLUMN_LIMITS[name];
  let wrong = 0;
  for (let i = 0; i < column.length; i++) {
    const value = column[i];
    if (value === null || (typeof value === "number" && within(value, limit))) continue;
    wrong++;
    if (wrong > NAMED_PER_COLUMN) continue;
    const at = `${path}[${i}]`;
    issues.push(
      typeof value === "number"
        ? { path: at, code: "out-of-range", message: `${at}: ${rangeWords(name, value, limit)}` }
        : {
            path: at,
            code: "not-a-number",
            message: `${at}: got ${JSON.stringify(value) ?? "nothing"}, must be a number or null`,
          },
    );
  }
  andMore(issues, path, "out-of-range", wrong);
}

function allNull(column: Column | undefined): boolean {
  return column === undefined || column.every((value) => value === null);
}

function checkPresence(hours: WeatherColumns, issues: Issue[]): void {
  const missing = (name: string, message: string) =>
    issues.push({
      path: `weather.hours.${name}`,
      code: "missing-column",
      message: `weather.hours.${name}: ${message}`,
    });
  if (allNull(hours.airTempC)) missing("airTempC", "no value in any hour; the air temperature is needed");
  if (allNull(hours.relHumidityPct) && allNull(hours.dewPointC)) {
    missing("relHumidityPct", "no value in any hour; relHumidityPct (or dewPointC) is needed");
  }
  if (allNull(hours.windSpeedMps)) missing("windSpeedMps", "no value in any hour; the wind speed is needed");
  if (allNull(hours.solarWm2) && allNull(hours.cloudPct)) {
    missing("solarWm2", "neither solarWm2 nor cloudPct has a value in any hour; one of them is needed");
  }
}

function checkDewPoint(hours: WeatherColumns, issues: Issue[]): void {
  const { airTempC, dewPointC: dew } = hours;
  if (dew === undefined) return;
  const path = "weather.hours.dewPointC";
  let wrong = 0;
  for (let i = 0; i < dew.length; i++) {
    const air = airTempC[i];
    const point = dew[i];
    if (typeof air !== "number" || typeof point !== "number") continue;
    if (point <= air + DEW_ABOVE_AIR_TOLERANCE_C) continue;
    wrong++;
    if (wrong > NAMED_PER_COLUMN) continue;
    const at = `${path}[${i}]`;
    issues.push({
      path: at,
      code: "dew-point-above-air",
      message: `${at}: got ${shown(point)} °C, must be at most the air temperature of ${shown(air)} °C plus ${DEW_ABOVE_AIR_TOLERANCE_C} °C`,
    });
  }
  andMore(issues, path, "dew-point-above-air", wrong);
}

function checkMembers(series: WeatherSeries, count: number, issues: Issue[]): void {
  (series.members ?? []).forEach((member, m) => {
    for (const name of COLUMN_NAMES) {
      const column = member[name];
      if (column !== undefined) checkColumn(name, column, count, `weather.members[${m}].${name}`, issues);
    }
  });
}

/** Checks a series: site, wind height, labels, lengths, plausible values, units. */
export function checkSeries(series: WeatherSeries): CheckedSeries {
  const issues = checkSite(series.site, "weather.site");
  const heightIssue = limitIssue("weather.windHeightM", series.windHeightM, WIND_HEIGHT_LIMIT);
  if (heightIssue) issues.push(heightIssue);
  const { hours } = series;
  const startUtcMs = checkLabels(hours.startUtc, issues);
  const count = Array.isArray(hours.startUtc) ? hours.startUtc.length : 0;
  if (count > 0) {
    const before = issues.length;
    for (const name of COLUMN_NAMES) {
      const column = hours[name];
      if (column !== undefined) checkColumn(name, column, count, `weather.hours.${name}`, issues);
    }
    // What follows reads values across columns, which makes sense only where each is a list of the right length.
    if (!issues.slice(before).some((issue) => issue.code === "wrong-length" || issue.code === "not-a-list")) {
      checkPresence(hours, issues);
      if (issues.length === before) checkDewPoint(hours, issues);
      if (!issues.slice(before).some((issue) => issue.path.includes("airTempC"))) {
        issues.push(...unitSuspicions(hours));
      }
    }
    checkMembers(series, count, issues);
  }
  return { issues, startUtcMs, count };
}
