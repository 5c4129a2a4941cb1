import { ODDS_LIMITS } from "../drying/limits.ts";
import type { LearnedRateRequest, ReadingRequest } from "../drying/request.ts";
import { type Issue, limitIssue } from "../limits.ts";
import { utcLabel } from "../weather/labels.ts";

/** A moisture that no swath has, with what it may come of. */
function moistureIssue(path: string, wb: number): Issue | null {
  const issue = limitIssue(path, wb, ODDS_LIMITS.readingWb);
  if (issue === null || !(wb >= 0 && wb < ODDS_LIMITS.readingWb.min)) return issue;
  const message = `${issue.message}. No crop in the field is drier: it charred, or its fresh weight is wrong? Take a new sample`;
  return { ...issue, message };
}

/** What is wrong with the readings of a cut, field by field. */
export function checkReadings(
  readings: readonly ReadingRequest[],
  cutUtcMs: number,
  usableUntilUtcMs: number,
  list = "readings",
): Issue[] {
  return readings.flatMap(({ atUtc, moistureWb, range }, i) => {
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
    for (const issue of [value, ...ends]) if (issue) issues.push(issue);
    if (range !== undefined && !(range[0] <= range[1])) {
      issues.push({
        path: `${path}.range`,
        code: "out-of-order",
        message: `${path}.range: got ${range.join(" to ")}, must be [lower, upper]`,
      });
    }
    return issues;
  });
}

/** What is wrong with a learned rate that was handed back. */
export function checkLearned(learned: LearnedRateRequest | undefined): Issue[] {
  if (learned === undefined) return [];
  return [
    limitIssue("learned.rateLnMean", learned.rateLnMean, ODDS_LIMITS.rateLnMean),
    limitIssue("learned.rateLnSd", learned.rateLnSd, ODDS_LIMITS.rateLnSd),
  ].filter((issue) => issue !== null);
}

/** What is wrong with the number of draws. */
export function checkDraws(draws: number | undefined): Issue[] {
  const issue = draws === undefined ? null : limitIssue("draws", draws, ODDS_LIMITS.draws);
  return issue ? [issue] : [];
}
