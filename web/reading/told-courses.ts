import { columnAt } from "../../model/odds/record-of-book.ts";
import type { Picture } from "../state/state.ts";
import { readLocal, writeLocal } from "./local.ts";
import { issueOf, keepMet, type Met, metKey } from "./met.ts";
import { learnedKey, type Reading, weatherKey } from "./readings.ts";

/** Courses as forecasts told them, kept on the device so that a later reading scores the earlier forecasts of its cut too. */

const TOLD_KEY = "swathclock-told";
/** Older ones are let go: some 7 kB each. */
const MOST_TOLD = 24;
const QUANTILES = ["p10", "p25", "p50", "p75", "p90"] as const;
const DECIMALS = 4;

interface ToldCourse extends Pick<Met, "issuedUtc" | "had"> {
  /** Weather, field and row that it is of. */
  readonly row: string;
  /** The swath and the route's passes that it was told with: with a lever tried it is of another cut. */
  readonly swath: string;
  readonly route: string | null;
  readonly startUtc: string;
  readonly bandsWb: Readonly<Record<(typeof QUANTILES)[number], readonly number[]>>;
}

function isTold(value: unknown): value is ToldCourse {
  const one = value as Partial<ToldCourse> | null;
  return (
    typeof one?.row === "string" &&
    typeof one.swath === "string" &&
    typeof one.issuedUtc === "string" &&
    typeof one.startUtc === "string" &&
    QUANTILES.every((q) => Array.isArray(one.bandsWb?.[q]))
  );
}

export function readTold(): readonly ToldCourse[] {
  const kept = readLocal(TOLD_KEY);
  return Array.isArray(kept) ? kept.filter(isTold) : [];
}

function rowOf({ source, inputs }: Pick<Picture, "source" | "inputs">, optionId: string): string {
  return [weatherKey(source), learnedKey(inputs.fieldName, inputs.crop), optionId].join("|");
}

function swathOf({ request }: Pick<Picture, "request">, route: string | null): string {
  return JSON.stringify([request.swath, route]);
}

/** Keeps the course of a row as its forecast tells it, before anything was measured on it; with the levers as they are now. */
export function keepToldCourse(picture: Picture): void {
  const { course, source } = picture;
  const odds = course?.course.odds;
  const startUtc = course?.course.hours.startUtc[0];
  const issue = source.kind === "forecast" ? issueOf(source.series) : null;
  if (!course || !odds || odds.readings !== null || issue === null || startUtc === undefined) return;
  const { optionId, route } = course;
  const round = (wb: number) => Number(wb.toFixed(DECIMALS));
  const { p10, p25, p50, p75, p90 } = odds.moistureWb;
  const bandsWb = {
    p10: p10.map(round),
    p25: p25.map(round),
    p50: p50.map(round),
    p75: p75.map(round),
    p90: p90.map(round),
  };
  const row = rowOf(picture, optionId);
  const one: ToldCourse = { ...issue, row, swath: swathOf(picture, route), route, startUtc, bandsWb };
  const others = readTold().filter((each) => each.row !== row || each.issuedUtc !== one.issuedUtc);
  writeLocal(TOLD_KEY, [...others, one].slice(-MOST_TOLD));
}

/** Scores a reading of the shown row by the forecasts of its cut that were told before it, each in the swath shown. */
export function metToldCourses(picture: Picture, reading: Reading): void {
  const { request, optionId } = reading;
  const { atUtc, moistureWb } = request;
  const row = rowOf(picture, optionId);
  const swath = swathOf(picture, picture.course?.route ?? null);
  const now = issueOf(picture.source.series)?.issuedUtc;
  for (const { issuedUtc, had, route, startUtc, bandsWb, ...told } of readTold()) {
    if (told.row !== row || told.swath !== swath || issuedUtc === now || moistureWb === undefined) continue;
    if (Date.parse(issuedUtc) > Date.parse(atUtc)) continue;
    const [p10, p25, p50, p75, p90] = QUANTILES.map((q) =>
      columnAt(bandsWb[q], Date.parse(startUtc), Date.parse(atUtc)),
    );
    if (p10 == null || p25 == null || p50 == null || p75 == null || p90 == null) continue;
    const bands = { p10, p25, p50, p75, p90 };
    const common = { issuedUtc, ...(had === undefined ? {} : { had }), of: metKey(reading) };
    keepMet({ ...common, atUtc, route, bandsWb: bands, observedWb: moistureWb });
  }
}
