import type { RouteKey } from "./keys.ts";
import { ROUTES } from "./keys.ts";

/** What the order of an option-route pair depends on. Only pairs with a window are ranked. */
export interface Ranked {
  readonly optionId: string;
  readonly route: RouteKey;
  /** Expected value of a hectare, in the currency of the prices. */
  readonly valuePerHa: number;
  /** False where no daily need says how much of the field is taken: the value is then that of a hectare taken alone. */
  readonly shareKnown: boolean;
  /** False for green chop and grazing, which never bring in the whole field at once. */
  readonly wholeArea: boolean;
  readonly rainedOn: boolean;
  /** Local midnights between the cut and the start of the first window; 0 for a standing route. */
  readonly daysLying: number;
  readonly firstWindowMs: number;
  /** Start of mowing; the first window's own start for a standing route. */
  readonly cutMs: number;
  /** "" for a standing route. */
  readonly treatmentId: string;
}

/**
 * Which pair is better: the one of higher expected value, those of which nobody can tell how much of
 * the field they take after all others. Of equals: one that brings in the whole area before one that
 * takes a day's need; unrained before rained on; fewer days lying; the earlier first window. Then the earlier cut (more
 * drying in hand), the order of routes in `keys.ts`, the treatment's id.
 */
export function compareRanked(a: Ranked, b: Ranked): number {
  if (a.shareKnown !== b.shareKnown) return a.shareKnown ? -1 : 1;
  if (a.valuePerHa !== b.valuePerHa) return b.valuePerHa - a.valuePerHa;
  if (a.wholeArea !== b.wholeArea) return a.wholeArea ? -1 : 1;
  if (a.rainedOn !== b.rainedOn) return a.rainedOn ? 1 : -1;
  if (a.daysLying !== b.daysLying) return a.daysLying - b.daysLying;
  if (a.firstWindowMs !== b.firstWindowMs) return a.firstWindowMs - b.firstWindowMs;
  if (a.cutMs !== b.cutMs) return a.cutMs - b.cutMs;
  const routes = ROUTES.indexOf(a.route) - ROUTES.indexOf(b.route);
  if (routes !== 0) return routes;
  return a.treatmentId < b.treatmentId ? -1 : a.treatmentId > b.treatmentId ? 1 : 0;
}

/** The pairs, best first. */
export function rankPairs<T extends Ranked>(pairs: readonly T[]): T[] {
  return [...pairs].sort(compareRanked);
}
