import type { Outcome } from "../limits.ts";
import type { WindowsAnswer } from "./answer.ts";
import { findWindowsWithOdds } from "./board-odds.ts";
import { compareRoutes, type RouteComparison } from "./compare-routes.ts";
import type { WindowsRequest } from "./request.ts";

/** The board, and its best cut of each route side by side. */
export interface ComparedWindows extends WindowsAnswer {
  readonly comparison: RouteComparison;
}

/**
 * What /api/windows and the command line answer. The page asks for the board alone, as often as a lever moves, and compares
 * the cuts that the user has chosen.
 */
export function answerWindows(request: WindowsRequest): Outcome<ComparedWindows> {
  const outcome = findWindowsWithOdds(request);
  if (!outcome.ok) return outcome;
  return { ok: true, value: { ...outcome.value, comparison: compareRoutes(request, outcome.value) } };
}
