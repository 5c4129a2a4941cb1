import type { Issue } from "../../limits.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { ForecastCourseDoc, ForecastDoc } from "../work-docs.ts";
import { notBefore } from "./issue.ts";

/** A kept forecast: a course of whole hours one after the other, and what was issued stays as it was. */

type Column = readonly (number | null)[];

function columnsOf({ moistureWb, quantiles, membersWb }: ForecastCourseDoc): [string, Column][] {
  return [
    ["moistureWb", moistureWb],
    ...Object.entries<Column>(quantiles ?? {}).map(([key, of]): [string, Column] => [`quantiles.${key}`, of]),
    ...(membersWb ?? []).map((of, i): [string, Column] => [`membersWb[${i}]`, of]),
  ];
}

function courseIssues(course: ForecastCourseDoc): Issue[] {
  const { startUtc } = course;
  const at = (path: string, code: string, rest: string): Issue => ({
    path: `doc.course.${path}`,
    code,
    message: `doc.course.${path}: ${rest}`,
  });
  const firstMs = Date.parse(startUtc[0] ?? "");
  const wrongHour = startUtc.findIndex((utc, i) => Date.parse(utc) !== firstMs + i * HOUR_MS);
  const hours =
    startUtc.length === 0
      ? [at("startUtc", "too-few", "got 0 hours, must be at least 1")]
      : wrongHour < 0
        ? []
        : [
            at(
              `startUtc[${wrongHour}]`,
              "not-hourly",
              `got "${startUtc[wrongHour]}", must be a UTC time, and an hour after the one before`,
            ),
          ];
  const columns = columnsOf(course).flatMap(([path, column]) => {
    if (column.length !== startUtc.length)
      return [
        at(
          path,
          "wrong-length",
          `got ${column.length} values, must be ${startUtc.length}, one an hour of startUtc`,
        ),
      ];
    const i = column.findIndex((wb) => wb !== null && !(wb >= 0 && wb <= 1));
    return i < 0
      ? []
      : [
          at(
            `${path}[${i}]`,
            "out-of-range",
            `got ${column[i]}, must be from 0 to 1, or null where it is not known`,
          ),
        ];
  });
  return [...hours, ...columns];
}

export function forecastIssues({ course, chances }: ForecastDoc): Issue[] {
  return [
    ...(course ? courseIssues(course) : []),
    ...(chances ?? []).flatMap(({ fromUtc, toUtc }, i) =>
      notBefore({ path: `chances[${i}].toUtc`, utc: toUtc }, fromUtc, "its beginning"),
    ),
  ];
}

/** What may be said of a forecast later: a note, and whether what it told came. */
function issuedPart({ notes: _notes, chances, ...issued }: ForecastDoc): Readonly<Record<string, string>> {
  const told = (chances ?? []).map(({ came: _came, ...chance }) => chance);
  const keys = Object.entries({ ...issued, chances: told }).filter(([, value]) => (value ?? null) !== null);
  return Object.fromEntries(keys.map(([key, value]) => [key, sorted(value)]));
}

/** One text for the same JSON, whatever the order of its keys. */
function sorted(value: unknown): string {
  return JSON.stringify(value, (_key, one: unknown) =>
    typeof one === "object" && one !== null && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1)))
      : one,
  );
}

/** What was issued cannot be issued otherwise afterwards: the record would score what nobody was told. */
export function reissued(before: ForecastDoc, doc: ForecastDoc): Issue[] {
  const [then, now] = [issuedPart(before), issuedPart(doc)];
  return [...new Set([...Object.keys(then), ...Object.keys(now)])].flatMap((key) => {
    if (then[key] === now[key]) return [];
    const message = `doc.${key}: a forecast stays as it was issued; notes, and came of its chances, may be changed`;
    return [{ path: `doc.${key}`, code: "fixed", message }];
  });
}
