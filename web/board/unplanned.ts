import type { CutOptionAnswer, RouteAnswer } from "../../model/harvest/answer.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { listText, ROUTE_LABELS, ROUTE_SHORT, sentenceCase } from "../format/words.ts";

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

/**
 * For a row without any window, from the fullest wording to the shortest; none where nothing is likely enough. Each begins
 * with what the row has, none: a chance by itself would read as a window.
 *
 * @param why what the main forecast's windows fail by: "rain comes first"
 */
export function unplannedWordings(option: CutOptionAnswer, why: string): string[] {
  const named = unplannedOf(option).map(
    ({ route: { route }, chance }) => `${ROUTE_SHORT[route]} in ${inTen(chance)}`,
  );
  const [first] = named;
  if (first === undefined) return [];
  const fullest =
    why === ""
      ? []
      : [
          `No window in the main forecast: ${why}. ${sentenceCase(listText(named))} of its courses`,
          `No window in the main forecast: ${why}. ${sentenceCase(first)} of its courses`,
          `No window: ${why}. ${sentenceCase(first)} courses`,
        ];
  return [
    ...new Set([
      ...fullest,
      `No window in the main forecast; ${listText(named)} of its courses`,
      `No window in the main forecast; ${first} of its courses`,
      `No window; ${first} courses`,
      "No window",
    ]),
  ];
}
