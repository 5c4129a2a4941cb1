import type { Issue, Outcome } from "../../model/limits.ts";
import { isKnownTimeZone } from "../../model/weather/index.ts";
import { check } from "../check.ts";
import { archiveQuery, forecastQuery } from "../schemas/forecast.ts";
import {
  ARCHIVE_FIRST_DAY,
  ARCHIVE_MAX_DAYS,
  type AskedArchive,
  type AskedForecast,
  daysOf,
  todayAt,
} from "./service.ts";

/** The query of a forecast or an archive, typed, or everything that was wrong with it. */

const NUMBERS = new Set(["latitude", "longitude", "elevationM"]);

/** A number written as text; what is no number stays text, so that the error can show it. */
function typed(query: Readonly<Record<string, string>>): Record<string, string | number> {
  return Object.fromEntries(
    Object.entries(query).map(([key, text]) => {
      const value = Number(text);
      return [key, NUMBERS.has(key) && text.trim() !== "" && Number.isFinite(value) ? value : text];
    }),
  );
}

function zoneIssues(timeZone: string | undefined): Issue[] {
  if (timeZone === undefined || isKnownTimeZone(timeZone)) return [];
  const message = `timeZone: got "${timeZone}", must be an IANA zone name such as America/Chicago`;
  return [{ path: "timeZone", code: "unknown-time-zone", message }];
}

export function readForecastQuery(query: Readonly<Record<string, string>>): Outcome<AskedForecast> {
  const result = check(forecastQuery, typed(query));
  if (!result.ok) return result;
  const { provider, ensemble, timeZone, elevationM, ...place } = result.value;
  const issues = zoneIssues(timeZone);
  if (issues.length > 0) return { ok: false, issues };
  return {
    ok: true,
    value: {
      ...place,
      timeZone: timeZone ?? null,
      elevationM: elevationM ?? null,
      provider: provider ?? null,
      ensemble: ensemble === "true",
    },
  };
}

function spanIssues({ from, to }: AskedArchive, today: string): Issue[] {
  const out = (path: string, message: string): Issue[] => [{ path, code: "out-of-range", message }];
  if (from < ARCHIVE_FIRST_DAY)
    return out("from", `from: got ${from}, must be at least ${ARCHIVE_FIRST_DAY}`);
  if (to < from) return out("to", `to: got ${to}, must be ${from} (from) or later`);
  if (to > today) return out("to", `to: got ${to}, must be today (${today}) or earlier`);
  const days = daysOf(from, to);
  if (days <= ARCHIVE_MAX_DAYS) return [];
  return out("to", `to: got ${to}, ${days} days from ${from} on, must be at most ${ARCHIVE_MAX_DAYS} days`);
}

export function readArchiveQuery(
  query: Readonly<Record<string, string>>,
  nowMs: number,
): Outcome<AskedArchive> {
  const result = check(archiveQuery, typed(query));
  if (!result.ok) return result;
  const { timeZone, elevationM, ...rest } = result.value;
  const asked = { ...rest, timeZone: timeZone ?? null, elevationM: elevationM ?? null };
  const zone = zoneIssues(timeZone);
  const issues = zone.length > 0 ? zone : spanIssues(asked, todayAt(asked, nowMs));
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: asked };
}
