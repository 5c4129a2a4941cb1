import type { PackageKey } from "../../model/harvest/index.ts";
import { DRY_HAY_TOP, PACKAGES } from "../../model/harvest/index.ts";
import { PRESERVATIVE, preservativeFor } from "../../model/harvest/route-details/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import { sentenceCase } from "../format/words.ts";
import { PACKAGE_LABELS } from "../panel/route-words.ts";
import { inLocale } from "./own.ts";
import type { StripRow } from "./strip.ts";

/** Propionic acid by the moisture of the hay: none, a dose, or too wet for any. */

type Speech = Pick<Manner, "units" | "locale">;
export const PRESERVATIVE_SCALE = { left: 40, right: 10, ticks: [40, 35, 30, 25, 20, 15, 10] } as const;

const TOP_DOSE_WB = PRESERVATIVE[PRESERVATIVE.length - 1]?.upToWb ?? 0;

/** "5 kg a tonne", "10 lb a ton": of hay as it is. */
export function doseText(share: number, { units, locale }: Speech): string {
  const perT = toPage(1000 * share, "mass", units) / toPage(1, "tonnes", units);
  return `${numberText(perT, 0, { locale })} ${unitName("mass", units)} ${unitName("perT", units)}`;
}

export function preservativeStrip(first: PackageKey, manner: Speech): readonly StripRow[] {
  const packs = [first, ...PACKAGES.filter((pack) => pack !== first)];
  return packs.map((pack) => {
    const top = DRY_HAY_TOP[pack].wb;
    const edges = [top, ...PRESERVATIVE.map(({ upToWb }) => upToWb)];
    return {
      name: sentenceCase(PACKAGE_LABELS[pack]),
      zones: [
        { from: 40, to: TOP_DOSE_WB * 100, kind: "stop", text: "too wet" },
        ...PRESERVATIVE.map(({ upToWb, share }, i) => ({
          from: upToWb * 100,
          to: (edges[i] ?? top) * 100,
          kind: "care" as const,
          text: `${numberText(share.value * 100, 1, manner)} %`,
        })).toReversed(),
        { from: top * 100, to: 10, kind: "fits", text: "none" },
      ],
    };
  });
}

/** @param balePct moisture of the wettest windrow as typed or as the course tells it; null = not known */
export function preservativeSentence(pack: PackageKey, balePct: number | null, manner: Speech): string {
  const top = numberText(DRY_HAY_TOP[pack].wb * 100, 0, manner);
  const name = PACKAGE_LABELS[pack];
  if (balePct === null) return `${sentenceCase(name)} keep without a preservative to ${top} % moisture.`;
  const { share, text } = preservativeFor(pack, balePct / 100);
  const dose = share === null || share === 0 ? "" : ` That is ${doseText(share, manner)}.`;
  return `At ${numberText(balePct, 1, manner)} %, ${name}: ${inLocale(text, manner)}${dose}`;
}

/** A row for each step of moisture, for one package. */
export function preservativeTable(pack: PackageKey, manner: Speech): readonly (readonly string[])[] {
  const top = DRY_HAY_TOP[pack];
  const pct = (wb: number) => numberText(wb * 100, 0, manner);
  const doses = PRESERVATIVE.map(({ upToWb, share }, i) => [
    `${pct(PRESERVATIVE[i - 1]?.upToWb ?? top.wb)} to ${pct(upToWb)} %`,
    `${numberText(share.value * 100, 1, manner)} % of the wet weight`,
    doseText(share.value, manner),
    share.source,
  ]);
  return [
    [`to ${pct(top.wb)} %`, "none", "none", top.source],
    ...doses,
    [
      `over ${pct(TOP_DOSE_WB)} %`,
      "no dose",
      "let it dry, or wrap it",
      preservativeFor(pack, TOP_DOSE_WB + 0.01).source,
    ],
  ];
}

/** The row of the table that a moisture falls into. */
export function preservativeRow(pack: PackageKey, balePct: number): number {
  const edges = [DRY_HAY_TOP[pack].wb, ...PRESERVATIVE.map(({ upToWb }) => upToWb)];
  const found = edges.findIndex((wb) => balePct <= wb * 100 + 1e-6);
  return found === -1 ? edges.length : found;
}
