import type { RouteKey } from "./keys.ts";
import { ROUTES } from "./keys.ts";

/** What the order of an option-route pair depends on. Only pairs with a window are ranked. */
export interface Ranked {
  readonly optionId: string;
  readonly route: RouteKey;
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
 * Which pair is better, without members or uncertainty: one that brings in the whole area before one that takes a day's
 * need; unrained before rained on; fewer days lying; the earlier first window. Ties: the earlier cut (more drying in
 * hand), then the order of routes in `keys.ts`, then the treatment's id.
 */
export function compareRanked(a: Ranked, b: Ranked): number {
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
