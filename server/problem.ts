import type { Context } from "hono";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import type { Issue } from "../model/limits.ts";

/** The one error shape of the API and the command line. */
export interface ErrorBody {
  readonly error: string;
  readonly message: string;
  readonly issues: readonly Issue[];
}

/** So many issues are listed; the message says how many there are in all. */
export const MAX_ISSUES_LISTED = 50;

/** The body for a question that was not answered because of what was wrong with it. */
export function invalidRequest(issues: readonly Issue[], error = "invalid-request"): ErrorBody {
  const first = issues[0]?.message ?? "the request could not be read";
  const more = issues.length > 1 ? ` (and ${issues.length - 1} more)` : "";
  return { error, message: `${first}${more}`, issues: issues.slice(0, MAX_ISSUES_LISTED) };
}

export function sendProblem(c: Context, status: ContentfulStatusCode, body: ErrorBody) {
  return c.json(body, status);
}

/** The body for what has no issue of its own, as an unknown address. */
export function plainProblem(error: string, message: string): ErrorBody {
  return { error, message, issues: [] };
}
