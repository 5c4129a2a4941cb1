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
  /**
   * The largest share of a ration that these lines leave: 0 = none of it, null = not all of it, and no source says how
   * much, 1 = they say nothing against it.
   */
  readonly shareCap: 0 | 1 | null;
  /** The gravest first. */
  readonly classes: readonly PrussicVerdict[];
}

const UNDER = "under the line of this source";
/** From the gravest down. */
const ADVICE = ["do not feed", "may kill", "not as the only feed", "caution: mix and feed little", UNDER];

const verdict = (source: string, kind: PrussicVerdict["class"], advice: string): PrussicVerdict => ({
  source,
  class: kind,
  advice,
});

/** @param dmFrac dry matter of the feed as fed, above 0 to 1 */
export function readPrussicAcid({ value, unit, basis }: PrussicResult, dmFrac: number): PrussicReading {
  const ppmDm = ppmOfDryMatter(value, unit, basis, dmFrac);
  const ppmAsFed = ppmDm * dmFrac;
  const { dmPpm, asFedPpm, killsDmPpm } = PRUSSIC_EDGES;
  const kills = ppmDm >= killsDmPpm;
  const notSole = ppmDm > dmPpm || ppmAsFed > asFedPpm;
  const mixed = ppmDm >= dmPpm;
  const classes = [
    verdict(
      "Kansas State eUpdate, Prussic acid in sorghum following a hard freeze",
      notSole ? "danger" : "below",
      notSole ? "not as the only feed" : UNDER,
    ),
    verdict(
      "Pennsylvania column, Prussic acid risk in warm-season annuals after frost, 2020",
      kills ? "danger" : "below",
      kills ? "may kill" : UNDER,
    ),
    verdict(
      "three bands of dry matter, from memory",
      kills ? "danger" : mixed ? "caution" : "below",
      kills ? "do not feed" : mixed ? "caution: mix and feed little" : UNDER,
    ),
  ];
  return {
    ppmDm,
    ppmAsFed,
    shareCap: kills ? 0 : notSole || mixed ? null : 1,
    classes: classes.toSorted((a, b) => ADVICE.indexOf(a.advice) - ADVICE.indexOf(b.advice)),
  };
}

/** "do not feed (three bands of dry matter, from memory); may kill (Pennsylvania column, ...)": every source, the gravest first. */
export function prussicWords({ classes }: Pick<PrussicReading, "classes">): string {
  return classes.map(({ advice, source }) => `${advice} (${source})`).join("; ");
}
