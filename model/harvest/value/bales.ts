import { type Coefficient, coefficient } from "../../coefficient.ts";
import { requireRange } from "../../limits.ts";
import type { PackageKey } from "../keys.ts";

const SIZE = "a common size, from memory; weigh some of your own";

/** Dry matter of one bale, kg. */
export const BALE_DM_KG: Readonly<
  Record<PackageKey | "wrapped-round" | "wrapped-large-square", Coefficient>
> = {
  "small-square": coefficient(18, "kg DM", "from-memory", SIZE, [12, 30]),
  round: coefficient(300, "kg DM", "from-memory", SIZE, [180, 600]),
  "large-square": coefficient(400, "kg DM", "from-memory", SIZE, [250, 700]),
  "stalk-bale": coefficient(300, "kg DM", "from-memory", SIZE, [180, 550]),
  "wrapped-round": coefficient(270, "kg DM", "from-memory", SIZE, [180, 400]),
  "wrapped-large-square": coefficient(
    300,
    "kg DM",
    "from-memory",
    `${SIZE}; bales over 1400 lb as they are tear film (University of Wisconsin)`,
    [200, 320],
  ),
};

export function usualBaleKg(pack: PackageKey, wrapped: boolean): number {
  if (!wrapped) return BALE_DM_KG[pack].value;
  return BALE_DM_KG[pack === "large-square" ? "wrapped-large-square" : "wrapped-round"].value;
}

/**
 * Bales of a hectare, not rounded: whole bales belong to the field, not to the hectare.
 *
 * @param baledTHa dry matter that leaves the baler, t/ha
 * @param baleDmKg dry matter of one bale, kg, above 0
 */
export function balesPerHa(baledTHa: number, baleDmKg: number): number {
  requireRange("balesPerHa", "baledTHa", baledTHa, 0, 30);
  requireRange("balesPerHa", "baleDmKg", baleDmKg, 1, 2000);
  return (baledTHa * 1000) / baleDmKg;
}
