import { CHOPPING, packingWeightT, waterToAddKgPerT } from "../../model/harvest/route-details/index.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { fromPage, toPage, unitName } from "../format/units.ts";

/** Chop length, layers and weight on the heap. */

type Speech = Pick<Manner, "units" | "locale">;

/** Deliveries that are shown beside the user's own, in the unit of the page. */
const SHOWN_RATES = [20, 40, 60, 100] as const;

export interface Packing {
  readonly tPerH: number;
  readonly weightT: number;
  readonly own: boolean;
}

/** Weight on the heap by what arrives, the user's own rate among them. */
export function packingRows(ownTPerH: number | null, { units }: Speech): readonly Packing[] {
  const shown = SHOWN_RATES.map((rate) => ({ tPerH: fromPage(rate, "delivery", units), own: false }));
  const own = ownTPerH === null ? [] : [{ tPerH: ownTPerH, own: true }];
  return [...shown, ...own]
    .toSorted((a, b) => a.tPerH - b.tPerH || Number(a.own) - Number(b.own))
    .filter(({ tPerH, own: mine }) => mine || ownTPerH === null || Math.abs(tPerH - ownTPerH) > 1e-6 * tPerH)
    .map((row) => ({ ...row, weightT: packingWeightT(row.tPerH) }));
}

export function packingSentence(ownTPerH: number | null, manner: Speech): string {
  const layers = `in layers of ${quantityText(CHOPPING.layerCm.value, "stubble", manner)} at most, to ${quantityText(CHOPPING.leastDensityKgM3.value, "density", manner)} of dry matter and more`;
  const each = numberText(CHOPPING.packingTPerTPerH.value, 1, manner);
  return ownTPerH === null
    ? `Pack with ${each} ${unitName("tonnes", manner.units)} of tractor for each ${unitName("delivery", manner.units)} that arrives, ${layers}.`
    : `${quantityText(ownTPerH, "delivery", manner)} arriving needs ${quantityText(packingWeightT(ownTPerH), "tonnes", manner)} of tractors on the heap, ${layers}.`;
}

export function chopSentence(manner: Speech): string {
  const [least, most] = CHOPPING.lengthMm.validRange ?? [CHOPPING.lengthMm.value, CHOPPING.lengthMm.value];
  const page = (mm: number) =>
    manner.units === "metric"
      ? numberText(mm, 0, manner)
      : numberText(toPage(mm, "chopLength", "us"), 3, manner);
  return `Chop at ${page(least)} to ${page(most)} ${unitName("chopLength", manner.units)}; ${page(CHOPPING.processedLengthMm.value)} with a processor. Drier crop shorter, and packed harder.`;
}

/** Water that a point of moisture takes, near 65 %: said so that nobody counts on it. */
export function waterWords(manner: Speech): string {
  const kg = waterToAddKgPerT(0.64, 0.65);
  const shown = manner.units === "metric" ? kg : toPage(kg, "mass", "us") / toPage(1, "tonnes", "us");
  return `Crop that is too dry takes ${numberText(shown, 0, manner)} ${unitName("mass", manner.units)} of water ${unitName("perT", manner.units)} for one point: rarely worth hauling.`;
}

export function chopTable(manner: Speech): readonly (readonly string[])[] {
  const { lengthMm, processedLengthMm, layerCm, leastDensityKgM3, packingTPerTPerH } = CHOPPING;
  const length = (mm: number) =>
    `${numberText(manner.units === "metric" ? mm : toPage(mm, "chopLength", "us"), manner.units === "metric" ? 1 : 3, manner)} ${unitName("chopLength", manner.units)}`;
  return [
    ["Chop length, no processor", length(lengthMm.value), lengthMm.source],
    ["Chop length, processor", length(processedLengthMm.value), processedLengthMm.source],
    ["Layer, at most", quantityText(layerCm.value, "stubble", manner), layerCm.source],
    [
      "Density, at least",
      `${quantityText(leastDensityKgM3.value, "density", manner)} of dry matter`,
      leastDensityKgM3.source,
    ],
    [
      "Tractor on the heap",
      `${numberText(packingTPerTPerH.value, 1, manner)} ${unitName("tonnes", manner.units)} for each ${unitName("delivery", manner.units)}`,
      packingTPerTPerH.source,
    ],
  ];
}
