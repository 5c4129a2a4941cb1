import type { CutOptionAnswer, RouteAnswer, RouteKey, WindowsAnswer } from "../../model/harvest/index.ts";

/** The row and the route that are looked at. `route` null = the row's best. */
export interface Selection {
  readonly optionId: string;
  readonly route: RouteKey | null;
  /** Start of the route's later window that is looked at, as the answer writes it; absent = its first. */
  readonly windowUtc?: string;
}

export interface Choice {
  readonly option: CutOptionAnswer;
  readonly route: RouteAnswer | null;
  /** The later window of the route that is looked at; absent = its first. */
  readonly windowUtc?: string;
}

/**
 * The row's route of best rank, null where none has a window. A cut that lies has no rank: of its routes with a window the
 * one that is worth most.
 */
export function bestOpen({ routes, made }: CutOptionAnswer): RouteAnswer | null {
  const worth = ({ valuePerHa }: RouteAnswer) => valuePerHa ?? Number.NEGATIVE_INFINITY;
  let best: RouteAnswer | null = null;
  for (const route of routes) {
    if (made ? route.windows.length === 0 : route.rank === null) continue;
    const better =
      best === null || (made ? worth(route) > worth(best) : (route.rank ?? 0) < (best.rank ?? 0));
    if (better) best = route;
  }
  return best;
}

/** The row's best route; where none has a window, its first. */
export function bestRoute(option: CutOptionAnswer): RouteAnswer | null {
  return bestOpen(option) ?? option.routes[0] ?? null;
}

/** What is shown: the selection where the answer still has it, else the best of all, else the first row. */
export function chosen(answer: WindowsAnswer, selection: Selection | null): Choice | null {
  const bestPair = answer.best.overall;
  const wanted = answer.options.find(({ id }) => id === selection?.optionId);
  const option = wanted ?? answer.options.find(({ id }) => id === bestPair?.optionId) ?? answer.options[0];
  if (!option) return null;
  const routeKey = wanted ? selection?.route : option.id === bestPair?.optionId ? bestPair.route : null;
  const route = option.routes.find((one) => one.route === routeKey) ?? bestRoute(option);
  const windowUtc = wanted && route?.route === routeKey ? selection?.windowUtc : undefined;
  return windowUtc !== undefined && hasLater(route, windowUtc)
    ? { option, route, windowUtc }
    : { option, route };
}

/** Whether a route has a later window that starts then. */
export function hasLater(route: RouteAnswer | null | undefined, windowUtc: string): boolean {
  return route?.windows.slice(1).some(({ startUtc }) => startUtc === windowUtc) ?? false;
}

/** A choice as it is selected again, whatever becomes the best. */
export function selectionOf({ option, route, windowUtc }: Choice): Selection {
  return {
    optionId: option.id,
    route: route?.route ?? null,
    ...(windowUtc === undefined ? {} : { windowUtc }),
  };
}
