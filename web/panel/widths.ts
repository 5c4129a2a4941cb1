import { HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import type { Manner } from "../format/manner.ts";
import { toPage } from "../format/units.ts";
import { moisturePct } from "../format/words.ts";
import type { Inputs } from "../state/inputs.ts";
import { cutM, widthText } from "../state/swath-range.ts";

/** Shares of the cut that a swath is commonly laid to; assumed, and only choices beside the typed width. */
export const WIDTH_PRESETS = [
  { key: "windrow", share: 0.45 },
  { key: "wide", share: 0.7 },
  { key: "spread", share: 0.9 },
] as const;
export type WidthPreset = (typeof WIDTH_PRESETS)[number]["key"];

const SAME_SHARE = 0.006;

/** The preset that the covered share is; null where it is another. */
export function presetOf(coveredFraction: number | null): WidthPreset | null {
  if (coveredFraction === null) return null;
  return WIDTH_PRESETS.find(({ share }) => Math.abs(share - coveredFraction) < SAME_SHARE)?.key ?? null;
}

/** A windrow is what a baler gathers without a rake; wider is wide, and spread from the widest choice on. */
export function isWindrow(share: number): boolean {
  return share <= HARVEST_DEFAULTS.windrowCover.value;
}

/** How a share of the cut is called, by the lever and wherever two swaths are set side by side: "Wide 70 %". */
export function coverWords(share: number, numbers: Pick<Manner, "locale">): string {
  const spread = WIDTH_PRESETS[2].share - SAME_SHARE;
  const name = isWindrow(share) ? "Windrow" : share < spread ? "Wide" : "Spread";
  return `${name} ${moisturePct(share, numbers)}`;
}

/** The inputs with the swath laid to a share of the cut; null while the cut's width is not known. */
export function withCover(inputs: Inputs, share: number, manner: Pick<Manner, "locale">): Inputs | null {
  const cut = cutM(inputs);
  if (cut === null) return null;
  // In the units of the cut, so that its share is met; shown to a practical step where those are not the reader's.
  const { units } = inputs.texts.mowerCutM;
  const swathWidthM = { text: widthText(toPage(cut * share, "width", units), manner), units };
  return { ...inputs, texts: { ...inputs.texts, swathWidthM } };
}
