import type { WindowsAnswer } from "./answer.ts";
import { type ComparedRoute, type OptionOf, sidesOf } from "./compare-sides.ts";
import { turnsOf } from "./compare-turns.ts";
import type { WindowsRequest } from "./request.ts";
import { settleRoutes } from "./settle.ts";
import { settleMoney } from "./settle-money.ts";
import {
  beforeCutting,
  type Gate,
  harvestOrLeave,
  type StandingValueQuestion,
} from "./value/before-cutting.ts";
import { byPlace, comparisonSentence } from "./value/compare.ts";
import type { Turn } from "./value/sensitivities.ts";

export interface RouteComparison {
  /** Those that can be brought in, best first; those by a day's need that nobody gave behind the others. */
  readonly rows: readonly ComparedRoute[];
  readonly sentence: string;
  /** Which single input, moved by how much, changes the first place; the smallest move first. */
  readonly turns: readonly Turn[];
  /** What to settle before anything is cut. */
  readonly gate: readonly Gate[];
  /** Harvest now against leaving it, at the user's prices; null where the question says nothing of what waiting may bring. */
  readonly leave: ReturnType<typeof harvestOrLeave> | null;
}

/** What waiting may bring, with what was not said as nothing; forage at the dearest price of the routes asked for. */
function leaveQuestion(request: WindowsRequest): StandingValueQuestion {
  const { prices } = settleMoney(request);
  const dearest = Math.max(...settleRoutes(request).map(({ route }) => prices[route]));
  const said = Object.entries(request.leave ?? {}).filter(([, value]) => value !== undefined);
  return {
    grainTHa: 0,
    grainPricePerT: 0,
    grainCostPerHa: 0,
    grainChance: 1,
    laterForageTHa: 0,
    laterForagePricePerT: dearest,
    laterForageCostPerHa: 0,
    ...Object.fromEntries(said),
  };
}

function comparedSides(request: WindowsRequest, answer: WindowsAnswer, optionOf: OptionOf) {
  const sides = sidesOf(request, answer, optionOf);
  const rows = byPlace(sides.map(({ row }) => row));
  const leave = request.leave ? harvestOrLeave(rows[0]?.valuePerHa ?? 0, leaveQuestion(request)) : null;
  return { sides, rows, leave };
}

const bestOf =
  (answer: WindowsAnswer): OptionOf =>
  (route) =>
    answer.best.byRoute[route] ?? null;

/** The first place and the worth of waiting alone, as `compareRoutes` has them with the best option of each route. */
export function firstAgainstWaiting(
  request: WindowsRequest,
  answer: WindowsAnswer,
): { readonly first: ComparedRoute | undefined; readonly leave: RouteComparison["leave"] } {
  const { rows, leave } = comparedSides(request, answer, bestOf(answer));
  return { first: rows[0], leave };
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
  optionOf: OptionOf = bestOf(answer),
): RouteComparison {
  const { sides, rows, leave } = comparedSides(request, answer, optionOf);
  return {
    rows,
    sentence: comparisonSentence(rows, request.swath.crop),
    turns: turnsOf(request, sides),
    gate: beforeCutting(request.swath.crop),
    leave,
  };
}
