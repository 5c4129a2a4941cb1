import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_CROPS } from "../hazards/prussic-crops.ts";
import { NITRATE_ACCUMULATORS } from "../hazards/records.ts";
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
  /** True where rain fell on the swath before the machine came. */
  readonly rainedOn: boolean;
  /** Share of the field that is taken, 0-1: below 1 where it goes by a day's need, null where none was given. */
  readonly takenShare: number | null;
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

/** Said of every number of a route by a day's need where no need is given. */
export const SHARE_UNKNOWN =
  "No daily need is given: its numbers are of a field that is taken whole, and it stands behind the others.";

/**
 * The order of the board: by expected value, those of which nobody can tell how much of the field they take behind the
 * others, those that cannot be brought in last; of equals, the order of the route keys.
 */
export function byPlace<T extends Compared>(rows: readonly T[]): T[] {
  const worth = ({ valuePerHa }: Compared) => valuePerHa ?? Number.NEGATIVE_INFINITY;
  const group = ({ valuePerHa, takenShare }: Compared) =>
    valuePerHa === null ? 2 : takenShare === null ? 1 : 0;
  return rows.toSorted((a, b) => {
    if (group(a) !== group(b)) return group(a) - group(b);
    if (worth(a) !== worth(b)) return worth(a) > worth(b) ? -1 : 1;
    return ROUTES.indexOf(a.route) - ROUTES.indexOf(b.route);
  });
}

/** A crop cut and gathered on one day needs that day; each midnight it lies through adds one. Dry ones only without rain. */
function needWords({ daysLying, rainedOn }: Compared): string {
  if (daysLying === null) return "";
  const days = daysLying + 1;
  const number = SMALL_NUMBERS[days] ?? days;
  const unit = days === 1 ? "day" : "days";
  return rainedOn ? ` and lie ${number} ${unit}, rained on` : ` and need ${number} dry ${unit}`;
}

function keptWords({ keptFraction, takenShare }: Compared): string {
  const share = Math.round((takenShare ?? 1) * 100);
  return `keep ${Math.round(keptFraction * 100)} %${share < 100 ? ` of the ${share} % of the field that is taken` : ""}`;
}

/** Green chop and grazing are one thing, bales are many. */
function agreed(route: RouteKey, words: string): string {
  return route === "wrapped-bales" ? words : words.replace(/\b(keep|need|lie)\b/g, "$1s");
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function told(rows: readonly Compared[]): string {
  return rows
    .map((row) => {
      const label = ROUTE_CATALOGUE[row.route].label;
      const name = label.charAt(0).toLowerCase() + label.slice(1);
      return `${name} ${agreed(row.route, keptWords(row) + needWords(row))}`;
    })
    .join("; ");
}

/**
 * "Wrapped bales keep 88 % and need one dry day; dry hay keeps 77 % and needs four dry days." In the order of `byPlace`; ""
 * without rows. Routes by a day's need that nobody gave are told apart, and what a laboratory settles before all of them.
 */
export function comparisonSentence(rows: readonly Compared[], crop: CropKey): string {
  const placed = byPlace(rows.filter(({ valuePerHa }) => valuePerHa !== null));
  if (placed.length === 0) return "";
  const ranked = placed.filter(({ takenShare }) => takenShare !== null);
  const unknown = placed.filter(({ takenShare }) => takenShare === null);
  const last = `${told(unknown)} of what is taken`;
  const tested = PRUSSIC_CROPS.includes(crop) ? "nitrate and prussic acid" : "nitrate";
  return [
    ...(ranked.length > 0 ? [`${capital(told(ranked))}.`] : []),
    ...(unknown.length > 0
      ? [
          ranked.length > 0
            ? `Set last, as no daily need is given: ${last}.`
            : `${capital(last)}; no daily need is given.`,
        ]
      : []),
    ...(NITRATE_ACCUMULATORS.includes(crop) ? [`First a laboratory result for ${tested}.`] : []),
  ].join(" ");
}
