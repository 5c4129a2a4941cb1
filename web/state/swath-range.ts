import { SWATH_LIMITS } from "../../model/drying/index.ts";
import { type Manner, numberMarksOf } from "../format/manner.ts";
import { toPage, toStep, unitName } from "../format/units.ts";
import type { Inputs } from "./inputs.ts";
import { editableText, readNumber } from "./numbers.ts";
import { shownText, typedValue } from "./typed.ts";

type Speech = Pick<Manner, "units" | "locale">;

const WIDTH_DECIMALS = 2;

/** The mower's cut, m; null while it is not known. */
export function cutM(inputs: Inputs): number | null {
  const cut = typedValue("mowerCutM", inputs.texts.mowerCutM);
  return cut !== null && cut > 0 ? cut : null;
}

/** A width as it stands in a field. */
export function widthText(pageWidth: number, { locale }: Pick<Manner, "locale">): string {
  return editableText(pageWidth, WIDTH_DECIMALS, locale);
}

/** The cut as its field shows it in these units; null where it is no number. */
export function shownCut(inputs: Inputs, units: Manner["units"]): number | null {
  return readNumber(shownText("mowerCutM", inputs.texts.mowerCutM, units), numberMarksOf("en"));
}

/** "0.15 to 3 m": what the swath may measure at this cut; null while the cut's width is not known. */
export function swathRange(inputs: Inputs, { units, locale }: Speech): string | null {
  const cut = cutM(inputs);
  const shown = shownCut(inputs, units);
  if (cut === null || shown === null) return null;
  // Rounded inwards, so that what is asked for is accepted; as wide as the cut is as wide as the field shows it.
  const exact = toPage(cut * SWATH_LIMITS.coveredFraction.min, "width", units);
  const least =
    units === "metric" ? Math.ceil(exact * 100 - 1e-6) / 100 : toStep(exact, "width", units, Math.ceil);
  return `${widthText(least, { locale })} to ${widthText(shown, { locale })} ${unitName("width", units)}`;
}
