import { type Ion, NITROGEN_SHARE } from "./molar-masses.ts";

/** A laboratory's nitrate on one base: nitrate nitrogen (NO3-N), ppm (mg/kg) of dry matter. */

export const CONTENT_UNITS = ["ppm", "pct"] as const;
export type ContentUnit = (typeof CONTENT_UNITS)[number];
export const BASES = ["dm", "as-fed"] as const;
export type Basis = (typeof BASES)[number];

/** A result with all three of its labels; without one of them nobody can read it. */
export interface NitrateResult {
  readonly value: number;
  readonly ion: Ion;
  readonly unit: ContentUnit;
  readonly basis: Basis;
}

const PPM_OF: Readonly<Record<ContentUnit, number>> = { ppm: 1, pct: 10_000 };

/** Content as ppm of dry matter, whatever substance it is of. @param dmFrac dry matter of the feed as fed, 0-1 */
export function ppmOfDryMatter(value: number, unit: ContentUnit, basis: Basis, dmFrac: number): number {
  const ppm = value * PPM_OF[unit];
  return basis === "dm" ? ppm : ppm / dmFrac;
}

/** NO3-N, ppm of dry matter. @param dmFrac dry matter of the feed as fed, above 0 to 1 */
export function no3nPpmDm({ value, ion, unit, basis }: NitrateResult, dmFrac: number): number {
  return ppmOfDryMatter(value, unit, basis, dmFrac) * NITROGEN_SHARE[ion];
}

/** The other way round: what a laboratory would print. */
export function resultOf(ppm: number, labels: Omit<NitrateResult, "value">, dmFrac: number): NitrateResult {
  const share = labels.basis === "dm" ? ppm : ppm * dmFrac;
  return { ...labels, value: share / NITROGEN_SHARE[labels.ion] / PPM_OF[labels.unit] };
}

/** NO3-N in drinking water, mg/L. */
export function waterNo3nMgL(value: number, ion: Ion): number {
  return value * NITROGEN_SHARE[ion];
}
