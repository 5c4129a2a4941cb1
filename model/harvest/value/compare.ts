import type { RouteKey } from "../keys.ts";
import { ROUTES } from "../keys.ts";
import { ROUTE_CATALOGUE } from "../routes.ts";

/** One route of the comparison: what its sentence and its place are told from. */
export interface Compared {
  readonly route: RouteKey;
  /** From standing to fed out, 0-1. */
  readonly keptFraction: number;
  /** Local midnights between the cut and the machine; null for a standing route. */
  readonly daysLying: number | null;
  /** Expected value per ha; null where it cannot be brought in. */
  readonly valuePerHa: number | null;
}

const SMALL_NUMBERS = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
] as const;

/** By expected value, those that cannot be brought in last; of equals, the order of the route keys. */
export function byValue<T extends Compared>(rows: readonly T[]): T[] {
  const worth = ({ valuePerHa }: Compared) => valuePerHa ?? Number.NEGATIVE_INFINITY;
  return rows.toSorted((a, b) => {
    if (worth(a) !== worth(b)) return worth(a) > worth(b) ? -1 : 1;
    return ROUTES.indexOf(a.route) - ROUTES.indexOf(b.route);
  });
}

function needWords(daysLying: number | null): string {
  if (daysLying === null) return "";
  // A crop cut and gathered on one day needs that day; each midnight it lies through adds one.
  const days = daysLying + 1;
  return ` and ${days === 1 ? "need one dry day" : `need ${SMALL_NUMBERS[days] ?? days} dry days`}`;
}

/** Green chop and grazing are one thing, bales are many. */
function agreed(route: RouteKey, words: string): string {
  return route === "wrapped-bales" ? words : words.replace("keep ", "keeps ").replace("need ", "needs ");
}

/** "Wrapped bales keep 88 % and need one dry day; dry hay keeps 77 % and needs four dry days." Best first; "" without rows. */
export function comparisonSentence(rows: readonly Compared[]): string {
  const told = byValue(rows.filter(({ valuePerHa }) => valuePerHa !== null)).map(
    ({ route, keptFraction, daysLying }, i) => {
      const label = ROUTE_CATALOGUE[route].label;
      const name = i === 0 ? label : label.charAt(0).toLowerCase() + label.slice(1);
      const words = `keep ${Math.round(keptFraction * 100)} %${needWords(daysLying)}`;
      return `${name} ${agreed(route, words)}`;
    },
  );
  return told.length === 0 ? "" : `${told.join("; ")}.`;
}
