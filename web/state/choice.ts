import type { CutOptionAnswer, RouteAnswer, RouteKey, WindowsAnswer } from "../../model/harvest/index.ts";

/** The row and the route that are looked at. `route` null = the row's best. */
export interface Selection {
  readonly optionId: string;
  readonly route: RouteKey | null;
}

export interface Choice {
  readonly option: CutOptionAnswer;
  readonly route: RouteAnswer | null;
}

/** The row's route of best rank; where none has a window, its first. */
export function bestRoute(option: CutOptionAnswer): RouteAnswer | null {
  let best: RouteAnswer | null = null;
  for (const route of option.routes) {
    if (route.rank !== null && (best === null || best.rank === null || route.rank < best.rank)) best = route;
  }
  return best ?? option.routes[0] ?? null;
}

/** What is shown: the selection where the answer still has it, else the best of all, else the first row. */
export function chosen(answer: WindowsAnswer, selection: Selection | null): Choice | null {
  const bestPair = answer.best.overall;
  const wanted = answer.options.find(({ id }) => id === selection?.optionId);
  const option = wanted ?? answer.options.find(({ id }) => id === bestPair?.optionId) ?? answer.options[0];
  if (!option) return null;
  const routeKey = wanted ? selection?.route : option.id === bestPair?.optionId ? bestPair.route : null;
  return { option, route: option.routes.find(({ route }) => route === routeKey) ?? bestRoute(option) };
}
