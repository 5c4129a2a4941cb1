import { SWATH_LIMITS } from "../../model/drying/index.ts";
import type { Manner } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import type { Inputs } from "./inputs.ts";
import { typedValue } from "./typed.ts";

type Speech = Pick<Manner, "units" | "locale">;

const WIDTH_DECIMALS = 2;

/** The mower's cut, m; null while it is not known. */
export function cutM(inputs: Inputs): number | null {
  const cut = typedValue("mowerCutM", inputs.texts.mowerCutM);
  return cut !== null && cut > 0 ? cut : null;
}

export function widthText(pageWidth: number, { locale }: Pick<Manner, "locale">): string {
  return pageWidth.toLocaleString(locale, {
    maximumFractionDigits: WIDTH_DECIMALS,
    useGrouping: false,
    numberingSystem: "latn",
  });
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
