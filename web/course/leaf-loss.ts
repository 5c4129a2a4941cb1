import { CROP_CATALOGUE } from "../../model/drying/crops.ts";
import type { OperationKind } from "../../model/drying/keys.ts";
import { passLoss, SHATTER_FROM_PCT } from "../../model/harvest/losses/passes.ts";
import type { WindowsRequest } from "../../model/harvest/request.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { moisturePct } from "../format/words.ts";

/** What is passed over. */
export type PassedSwath = Pick<WindowsRequest["swath"], "crop" | "dryMatterTHa">;

const DOING: Readonly<Record<OperationKind, string>> = {
  ted: "tedding",
  rake: "raking",
  invert: "inverting",
};

/** Dry matter that a pass shatters off, per cent; null where it is less than is worth a word. */
export function shatteredPct(
  kind: OperationKind,
  swath: PassedSwath,
  moistureWb: number | null,
): number | null {
  if (moistureWb === null) return null;
  const { pct } = passLoss(kind, swath.crop, moistureWb, swath.dryMatterTHa);
  return pct >= SHATTER_FROM_PCT.value ? pct : null;
}

/** "loses 16 %": beside a mark. */
export function lossBesideMark(pct: number | null, manner: Manner): string {
  return pct === null ? "" : `, loses ${numberText(pct, 0, manner)} %`;
}

/** "Alfalfa is at about 19 % then: tedding shatters about 16 % of it, leaf first. Do it moister." */
export function lossSentence(
  kind: OperationKind,
  { crop }: PassedSwath,
  moistureWb: number | null,
  pct: number | null,
  manner: Manner,
): string {
  if (pct === null || moistureWb === null) return "";
  const { label } = CROP_CATALOGUE[crop];
  return `${label} is at about ${moisturePct(moistureWb, manner)} then: ${DOING[kind]} shatters about ${numberText(pct, 0, manner)} % of its dry matter, leaf first. Pass over it moister.`;
}
