import type { CutOptionAnswer, RouteAnswer } from "../../model/harvest/answer.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";

/** Routes that the main forecast leaves without a window though its chances do not: nothing can be planned for them, yet they may come in. */

/** A chance up to this is no more than what a route without a window means, 0-1. */
const LEAST_CHANCE = 0.1;

export interface Unplanned {
  readonly route: RouteAnswer;
  readonly chance: number;
}

/** The likeliest first. */
export function unplannedOf({ routes }: Pick<CutOptionAnswer, "routes">): readonly Unplanned[] {
  return routes
    .flatMap((route) => {
      const chance = route.odds?.chance ?? 0;
      return route.windows.length === 0 && chance > LEAST_CHANCE ? [{ route, chance }] : [];
    })
    .sort((a, b) => b.chance - a.chance);
}

/** "no window in the main forecast; 5 in 10 of its courses have one". */
export function unplannedText(chance: number): string {
  return `no window in the main forecast; ${inTen(chance)} of its courses have one`;
}

/** "Wrapped bales: no window in the main forecast; 5 in 10 of its courses have one." for each of them. */
export function unplannedReasons(option: CutOptionAnswer): readonly string[] {
  return unplannedOf(option).map(
    ({ route: { route }, chance }) => `${sentenceCase(ROUTE_LABELS[route])}: ${unplannedText(chance)}.`,
  );
}
