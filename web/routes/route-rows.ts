import type { RouteAnswer, RouteKey } from "../../model/harvest/index.ts";
import { type ComparedRoute, compareRoutes, type RouteComparison } from "../../model/harvest/index.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { type Lost, lostOf } from "./steps.ts";

export interface RouteRow extends ComparedRoute {
  readonly lost: readonly Lost[];
  /** First by expected value. */
  readonly first: boolean;
}

export interface SideBySide extends Omit<RouteComparison, "rows"> {
  readonly rows: readonly RouteRow[];
  /** Routes that the chosen cut does not bring in. */
  readonly without: readonly RouteAnswer[];
}

/** The routes of the chosen cut beside those that take the crop standing; of a standing row, each route's best cut. */
export function sideBySide({ request, source, answer }: Picture, choice: Choice | null): SideBySide {
  const chosen = choice?.option.kind === "swath" ? choice.option : null;
  const optionOf = (route: RouteKey): string | null => {
    if (chosen?.routes.some((one) => one.route === route)) return chosen.id;
    return answer.best.byRoute[route] ?? null;
  };
  const compared = compareRoutes({ ...request, weather: source.series }, answer, optionOf);
  return {
    ...compared,
    rows: compared.rows.map((row, i) => ({ ...row, lost: lostOf(row.lossSteps), first: i === 0 })),
    without: (chosen?.routes ?? []).filter(({ windows }) => windows.length === 0),
  };
}
