import { SWATH_LIMITS } from "../../model/drying/index.ts";
import type { Manner } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import type { Inputs } from "../state/inputs.ts";
import { typedValue } from "../state/typed.ts";

/** Shares of the cut that a swath is commonly laid to; assumed, and only choices beside the typed width. */
export const WIDTH_PRESETS = [
  { key: "windrow", share: 0.45, text: "Windrow 45 %" },
  { key: "wide", share: 0.7, text: "70 %" },
  { key: "spread", share: 0.9, text: "Spread 90 %" },
] as const;
export type WidthPreset = (typeof WIDTH_PRESETS)[number]["key"];

const SAME_SHARE = 0.006;
const WIDTH_DECIMALS = 2;

/** The preset that the covered share is; null where it is another. */
export function presetOf(coveredFraction: number | null): WidthPreset | null {
  if (coveredFraction === null) return null;
  return WIDTH_PRESETS.find(({ share }) => Math.abs(share - coveredFraction) < SAME_SHARE)?.key ?? null;
}

function cutM(inputs: Inputs): number | null {
  const cut = typedValue("mowerCutM", inputs.texts.mowerCutM);
  return cut !== null && cut > 0 ? cut : null;
}

type Speech = Pick<Manner, "units" | "locale">;

function widthText(pageWidth: number, { locale }: Speech): string {
  return pageWidth.toLocaleString(locale, {
    maximumFractionDigits: WIDTH_DECIMALS,
    useGrouping: false,
    numberingSystem: "latn",
  });
}

/** The inputs with the swath laid to a share of the cut; null while the cut's width is not known. */
export function withCover(inputs: Inputs, share: number, manner: Speech): Inputs | null {
  const cut = cutM(inputs);
  if (cut === null) return null;
  const swathWidthM = {
    text: widthText(toPage(cut * share, "width", manner.units), manner),
    units: manner.units,
  };
  return { ...inputs, texts: { ...inputs.texts, swathWidthM } };
}

/** "0.15 to 3 m": what the swath may measure at this cut; null while the cut's width is not known. */
export function swathRange(inputs: Inputs, manner: Speech): string | null {
  const cut = cutM(inputs);
  if (cut === null) return null;
  const { min, max } = SWATH_LIMITS.coveredFraction;
  // Rounded inwards, so that what is asked for is accepted.
  const step = 10 ** WIDTH_DECIMALS;
  const page = (widthM: number) => toPage(widthM, "width", manner.units) * step;
  const least = widthText(Math.ceil(page(cut * min) - 1e-6) / step, manner);
  const most = widthText(Math.floor(page(cut * max) + 1e-6) / step, manner);
  return `${least} to ${most} ${unitName("width", manner.units)}`;
}
