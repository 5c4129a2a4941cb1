import { ODDS_LIMITS } from "../drying/limits.ts";
import type { LearnedRateRequest, ReadingRequest } from "../drying/request.ts";
import { type Issue, limitIssue } from "../limits.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { WeatherSeries } from "../weather/series.ts";

/** A moisture that no swath has, with what it may come of. */
function moistureIssue(path: string, wb: number): Issue | null {
  const issue = limitIssue(path, wb, ODDS_LIMITS.readingWb);
  if (issue === null || !(wb >= 0 && wb < ODDS_LIMITS.readingWb.min)) return issue;
  const message = `${issue.message}. No crop in the field is drier: it charred, or its fresh weight is wrong? Take a new sample`;
  return { ...issue, message };
}

/** What tells one reading from another. */
function sameness({ atUtc, method, moistureWb, range, place = "" }: ReadingRequest): string {
  return [Date.parse(atUtc), method, moistureWb, range, place.trim()].join("|");
}

/** A reading that is there already would count as another measurement. */
function twiceIssue(readings: readonly ReadingRequest[], i: number, list: string): Issue | null {
  const same = readings.map(sameness);
  const [first, reading] = [same.indexOf(same[i] as string), readings[i]];
  if (first === i || reading === undefined) return null;
  const { method, atUtc, moistureWb, range } = reading;
  const path = `${list}[${i}]`;
  return {
    path,
    code: "duplicate",
    message: `${path}: got ${method} ${range?.join(" to ") ?? moistureWb} at ${atUtc} a second time (${list}[${first}]), must be there once. Measured at another place? Name it in place`,
  };
}

/** What is wrong with the readings of a cut, field by field. */
export function checkReadings(
  readings: readonly ReadingRequest[],
  cutUtcMs: number,
  usableUntilUtcMs: number,
  list = "readings",
): Issue[] {
  return readings.flatMap(({ atUtc, moistureWb, range, addedSdWb }, i) => {
    const path = `${list}[${i}]`;
    const issues: Issue[] = [];
    const atMs = Date.parse(atUtc);
    if (!(atMs >= cutUtcMs && atMs <= usableUntilUtcMs)) {
      issues.push({
        path: `${path}.atUtc`,
        code: "outside-course",
        message: `${path}.atUtc: got ${atUtc}, must lie between the cut (${utcLabel(cutUtcMs)}) and the end of the usable weather (${utcLabel(usableUntilUtcMs)})`,
      });
    }
    if ((moistureWb === undefined) === (range === undefined)) {
      const got = moistureWb === undefined ? "neither moistureWb nor range" : "both moistureWb and range";
      issues.push({ path, code: "one-of", message: `${path}: got ${got}, must have one of them` });
    }
    const ends = range === undefined ? [] : range.map((wb, k) => moistureIssue(`${path}.range[${k}]`, wb));
    const value = moistureWb === undefined ? null : moistureIssue(`${path}.moistureWb`, moistureWb);
    const added =
      addedSdWb === undefined ? null : limitIssue(`${path}.addedSdWb`, addedSdWb, ODDS_LIMITS.addedSdWb);
    for (const issue of [value, ...ends, added]) if (issue) issues.push(issue);
    if (range !== undefined && !(range[0] <= range[1])) {
      issues.push({
        path: `${path}.range`,
        code: "out-of-order",
        message: `${path}.range: got ${range.join(" to ")}, must be [lower, upper]`,
      });
    }
    const twice = twiceIssue(readings, i, list);
    return twice ? [...issues, twice] : issues;
  });
}

/** Minutes that two clocks may differ by, ms. */
const CLOCKS_APART_MS = 300_000;

/** `nowUtc` is told to the hour: what was cut, measured or learned inside that hour has been. UTC ms. */
export function endOfNowMs(nowUtc: string): number {
  return Date.parse(nowUtc) + HOUR_MS + CLOCKS_APART_MS;
}

/** The moment after which nothing can have been learned yet: the hour of now, or the end of the weather; UTC ms. */
export function learnedUntilMs({ hours }: Pick<WeatherSeries, "hours">, nowUtc?: string | null): number {
  if (typeof nowUtc === "string") return endOfNowMs(nowUtc);
  return Date.parse(hours.startUtc.at(-1) ?? "") + HOUR_MS;
}

/** What is wrong with a learned rate that was handed back. */
export function checkLearned(
  learned: LearnedRateRequest | undefined,
  weather: Pick<WeatherSeries, "hours">,
  nowUtc?: string | null,
): Issue[] {
  if (learned === undefined) return [];
  const { rateLnMean, rateLnSd, atUtc } = learned;
  const untilMs = learnedUntilMs(weather, nowUtc);
  const limit = typeof nowUtc === "string" ? `the hour of nowUtc (${nowUtc})` : "the end of the weather";
  // A weather or now that cannot be read is told of by its own check.
  const ahead: Issue[] =
    Date.parse(atUtc) > untilMs
      ? [
          {
            path: "learned.atUtc",
            code: "out-of-range",
            message: `learned.atUtc: got ${atUtc}, must not lie after ${limit}, ${utcLabel(untilMs)}: it has not been learned yet`,
          },
        ]
      : [];
  return [
    limitIssue("learned.rateLnMean", rateLnMean, ODDS_LIMITS.rateLnMean),
    limitIssue("learned.rateLnSd", rateLnSd, ODDS_LIMITS.rateLnSd),
    ...ahead,
  ].filter((issue) => issue !== null);
}

/** What is wrong with the number of draws. */
export function checkDraws(draws: number | undefined): Issue[] {
  const issue = draws === undefined ? null : limitIssue("draws", draws, ODDS_LIMITS.draws);
  return issue ? [issue] : [];
}
