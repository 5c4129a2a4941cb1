import { NITROGEN_SHARE } from "./molar-masses.ts";

/** Nitrate in drinking water: classes of two services, and when water must be counted. */

export interface WaterClass {
  readonly source: string;
  readonly class: string;
}

/** From here on water belongs into the total, mg/L NO3-N (rule of this program; water given is always counted). */
export const COUNT_WATER_FROM_MGL = 10;

const STATE: readonly (readonly [number, string])[] = [
  [100, "low by this table"],
  [300, "caution: add it to the feed's nitrate"],
  [Number.POSITIVE_INFINITY, "potentially toxic"],
];

/** NO3 edges 44, 132, 220, 660 mg/L as nitrogen. */
const COUNCIL: readonly (readonly [number, string])[] = [
  [44 * NITROGEN_SHARE.NO3, "low by this table"],
  [132 * NITROGEN_SHARE.NO3, "only beside low-nitrate feed"],
  [220 * NITROGEN_SHARE.NO3, "harmful over a long time"],
  [660 * NITROGEN_SHARE.NO3, "risk of death"],
  [Number.POSITIVE_INFINITY, "not to be given"],
];

const classIn = (mgL: number, edges: readonly (readonly [number, string])[]) =>
  edges.find(([upTo]) => mgL <= upTo)?.[1] ?? "not to be given";

/** @param mgL NO3-N, mg/L */
export function waterClasses(mgL: number): readonly WaterClass[] {
  return [
    {
      source: "National Research Council, Nutrient Requirements of Dairy Cattle (2001); from memory",
      class: classIn(mgL, COUNCIL),
    },
    {
      source: "South Dakota State University Extension, Nitrates and livestock water quality",
      class: classIn(mgL, STATE),
    },
  ];
}
