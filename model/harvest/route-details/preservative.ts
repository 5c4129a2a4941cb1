import { type Coefficient, coefficient } from "../../coefficient.ts";
import { type Limit, requireRange } from "../../limits.ts";
import { DRY_HAY_TOP } from "../bands.ts";
import type { PackageKey } from "../keys.ts";

export const BALE_MOISTURE_WB: Limit = { min: 0, max: 1, unit: "(wet-basis fraction; 18 % is 0.18)" };

const KENTUCKY = "University of Kentucky, Use correct preservative rates; pounds a short ton of hay";

/** Propionic acid, active, as a share of the wet weight, by the wettest moisture it is given for. */
export const PRESERVATIVE: readonly { readonly upToWb: number; readonly share: Coefficient }[] = [
  {
    upToWb: 0.25,
    share: coefficient(
      10 / 2000,
      "of wet weight",
      "published",
      `20-25 %: 10 lb/t: ${KENTUCKY}`,
      [0.005, 0.01],
    ),
  },
  {
    upToWb: 0.3,
    share: coefficient(
      20 / 2000,
      "of wet weight",
      "published",
      `26-30 %: 20 lb/t: ${KENTUCKY}; about 1 % at 30 % in miniature bales was borderline (J. Stored Prod. Res. 14, 1978)`,
      [0.006, 0.01],
    ),
  },
];

export interface PreservativeAdvice {
  /** Share of the wet weight; 0 = none needed, null = too wet for it. */
  readonly share: number | null;
  readonly text: string;
  readonly source: string;
}

const NO_NITRATE = "It does nothing for nitrate. Keep probing for heat.";

/**
 * Preservative for hay of this moisture in this package. It goes by the wettest windrow, not the mean.
 *
 * @param moistureWb wet basis, 0-1
 */
export function preservativeFor(pack: PackageKey, moistureWb: number): PreservativeAdvice {
  const { min, max } = BALE_MOISTURE_WB;
  requireRange("preservativeFor", "moistureWb", moistureWb, min, max);
  const top = DRY_HAY_TOP[pack];
  if (moistureWb <= top.wb + 1e-9)
    return { share: 0, text: "Dry enough to keep without a preservative.", source: top.source };
  const row = PRESERVATIVE.find(({ upToWb }) => moistureWb <= upToWb + 1e-9);
  if (row === undefined) {
    const text = "Too wet for any dose that was shown to work: let it dry, or wrap it.";
    return { share: null, text, source: PRESERVATIVE.at(-1)?.share.source ?? KENTUCKY };
  }
  const doubt =
    pack === "small-square"
      ? ""
      : pack === "large-square"
        ? " It helped large square bales to 27 %."
        : " In round bales a trial saw no help from it.";
  return {
    share: row.share.value,
    text: `${row.share.value * 100} % of the wet weight, spread evenly.${doubt} ${NO_NITRATE}`,
    source: `${row.share.source}; US Dairy Forage Research Center, reported: 0.6-1.0 % helped large squares to 27.4 %, not round bales`,
  };
}
