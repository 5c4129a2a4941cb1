import { coefficient } from "../coefficient.ts";
import type { RouteKey } from "../harvest/keys.ts";

/** What fermentation takes from nitrate, and how long to wait before opening. Drying takes nothing. */

export const FERMENTED: readonly RouteKey[] = ["wrapped-bales", "wilted-chop", "direct-chop"];

export const ENSILING_CREDIT = coefficient(
  0.2,
  "of nitrate, until the fed-out silage is tested",
  "published",
  "Michigan State (20-66 %), Illinois dairy (25-40 %), Ohio State (25 % or more), Illinois (30-60 %), Kansas (40-60 %), Penn State (50-60 %): the least computes",
  [0.2, 0.66],
);

/** Common practice, no source: "up to 50 to 60 % in a good fermentation". It never computes. */
export const ENSILING_COMMON_PRACTICE = "up to 50-60 %: common practice, no source; 20 % computes";

/** Weeks before feeding, by route; the stricter of the sources. Prussic acid: Ontario's 6 to 8. */
export const WAIT_WEEKS = {
  "wrapped-bales": coefficient(
    6,
    "weeks",
    "published",
    "Farm and Dairy (Ohio State), Know the ins and outs of feeding baleage",
    [3, 8],
  ),
  "wilted-chop": coefficient(4, "weeks", "published", "Penn State; Ohio State: 3-4 weeks", [3, 8]),
  "direct-chop": coefficient(4, "weeks", "published", "Penn State; Ohio State: 3-4 weeks", [3, 8]),
} as const;
export const PRUSSIC_WAIT_WEEKS = coefficient(
  8,
  "weeks",
  "published",
  "Kansas State eUpdate (4 weeks); Ontario Forage Network, 2024 (6-8 weeks)",
  [4, 8],
);

export type SampledAs = "standing" | "stored" | "fed-out";
export const SAMPLED_AS: readonly SampledAs[] = ["standing", "stored", "fed-out"];

export function isFermented(route: RouteKey | null): boolean {
  return route !== null && FERMENTED.includes(route);
}

/** The nitrate that computes where the crop was sampled standing and is then fermented; null where no credit is due. */
export function creditedPpm(ppm: number, route: RouteKey | null, sampled: SampledAs): number | null {
  return sampled === "standing" && isFermented(route) ? ppm * (1 - ENSILING_CREDIT.value) : null;
}
