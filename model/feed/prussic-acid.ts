import { type Basis, type ContentUnit, ppmOfDryMatter } from "./nitrate-units.ts";

/** Prussic acid (HCN) of the sorghum family: where published lines stand. A sample must be kept cool and undried. */

export interface PrussicResult {
  readonly value: number;
  readonly unit: ContentUnit;
  readonly basis: Basis;
}

export interface PrussicVerdict {
  readonly source: string;
  readonly class: "below" | "caution" | "danger";
  readonly advice: string;
}

/** ppm of dry matter and of the feed as it is, above which it is not to be the only feed. */
export const PRUSSIC_EDGES = { dmPpm: 500, asFedPpm: 200, killsDmPpm: 1000 } as const;

export interface PrussicReading {
  readonly ppmDm: number;
  readonly ppmAsFed: number;
  /** The strictest first. */
  readonly classes: readonly PrussicVerdict[];
}

/** @param dmFrac dry matter of the feed as fed, above 0 to 1 */
export function readPrussicAcid({ value, unit, basis }: PrussicResult, dmFrac: number): PrussicReading {
  const ppmDm = ppmOfDryMatter(value, unit, basis, dmFrac);
  const ppmAsFed = ppmDm * dmFrac;
  const kansas = ppmDm > PRUSSIC_EDGES.dmPpm || ppmAsFed > PRUSSIC_EDGES.asFedPpm;
  const order = { danger: 0, caution: 1, below: 2 };
  const classes: PrussicVerdict[] = [
    {
      source: "Kansas State eUpdate, Prussic acid in sorghum following a hard freeze",
      class: kansas ? "danger" : "below",
      advice: kansas ? "not as the only feed" : "under the line of this source",
    },
    {
      source: "Pennsylvania column, Prussic acid risk in warm-season annuals after frost, 2020",
      class: ppmDm >= PRUSSIC_EDGES.killsDmPpm ? "danger" : "below",
      advice: ppmDm >= PRUSSIC_EDGES.killsDmPpm ? "may kill" : "under the line of this source",
    },
    {
      source: "three bands of dry matter, from memory",
      class: ppmDm >= 1000 ? "danger" : ppmDm >= 500 ? "caution" : "below",
      advice:
        ppmDm >= 1000
          ? "do not feed"
          : ppmDm >= 500
            ? "caution: mix and feed little"
            : "under the line of this source",
    },
  ];
  return { ppmDm, ppmAsFed, classes: classes.toSorted((a, b) => order[a.class] - order[b.class]) };
}
