import type { WindowsAnswer } from "./answer.ts";
import { type ComparedRoute, type OptionOf, sidesOf } from "./compare-sides.ts";
import { turnsOf } from "./compare-turns.ts";
import type { WindowsRequest } from "./request.ts";
import { beforeCutting, type Gate } from "./value/before-cutting.ts";
import { byValue, comparisonSentence } from "./value/compare.ts";
import type { Turn } from "./value/sensitivities.ts";

export interface RouteComparison {
  /** Those that can be brought in, best first. */
  readonly rows: readonly ComparedRoute[];
  readonly sentence: string;
  /** Which single input, moved by how much, changes the first place; the smallest move first. */
  readonly turns: readonly Turn[];
  /** What to settle before anything is cut. */
  readonly gate: readonly Gate[];
}

/**
 * Routes side by side: rows, the sentence, what would change the first place, and the gate before cutting.
 *
 * @param answer of this very request
 * @param optionOf the cut option of each route; absent = the best of each
 */
export function compareRoutes(
  request: WindowsRequest,
  answer: WindowsAnswer,
  optionOf: OptionOf = (route) => answer.best.byRoute[route] ?? null,
): RouteComparison {
  const sides = sidesOf(request, answer, optionOf);
  const rows = byValue(sides.map(({ row }) => row));
  return {
    rows,
    sentence: comparisonSentence(rows),
    turns: turnsOf(request, sides),
    gate: beforeCutting(request.swath.crop),
  };
}
