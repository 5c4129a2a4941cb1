import type { CropKey } from "../../drying/keys.ts";
import { ENSILING_CREDIT, PRUSSIC_WAIT_WEEKS, WAIT_WEEKS } from "../../feed/ensiling.ts";
import { PRUSSIC_CROPS } from "../hazards/prussic-crops.ts";
import { CUTTING_HEIGHT, PRACTICE_STUBBLE_CM, PRACTICE_STUBBLE_LABEL } from "./cutting-height.ts";
import { PRACTICE_FERMENT_WEEKS } from "./waits.ts";

/** What people commonly do, beside the published value that computes. Never what computes where a stricter one exists. */
export interface CommonPractice {
  readonly quantity: string;
  readonly range: string;
  readonly label: string;
  /** The published or stricter value that computes instead, in words. */
  readonly computes: string;
}

const dash = (range: readonly [number, number] | undefined) => (range ? `${range[0]}-${range[1]}` : "");
const stubble = PRACTICE_STUBBLE_CM;

const FERMENTING = "fermenting before feeding";

export const COMMON_PRACTICE: readonly CommonPractice[] = [
  {
    quantity: "stubble: green chop / hay / wrapped bales / grazing residual, cm",
    range: [stubble["green-chop"], stubble["dry-hay"], stubble["wrapped-bales"], stubble.grazing]
      .map(dash)
      .join(" / "),
    label: PRACTICE_STUBBLE_LABEL,
    // Up to a whole centimetre, as the page tells it: a least is never rounded down.
    computes: `${Math.ceil(CUTTING_HEIGHT.suspectCm.value)} cm while nitrate is suspect, and of nitrate crops taken fresh always the bottom third: published`,
  },
  {
    quantity: "nitrate lost in a good fermentation",
    range: "up to 50-60 %",
    label: PRACTICE_STUBBLE_LABEL,
    computes: `${ENSILING_CREDIT.value * 100} % until the fed-out silage is tested: published`,
  },
  {
    quantity: FERMENTING,
    range: `${dash(PRACTICE_FERMENT_WEEKS)} weeks`,
    label: PRACTICE_STUBBLE_LABEL,
    computes: `wrapped bales ${WAIT_WEEKS["wrapped-bales"].value} weeks, chopped ${WAIT_WEEKS["wilted-chop"].value}; sorghum types ${PRUSSIC_WAIT_WEEKS.value} for prussic acid: published`,
  },
  {
    quantity: "nitrate lost in curing hay",
    range: "none",
    label: "common practice and published",
    computes: "none: published",
  },
  {
    quantity: "stock sort leaf from hay, so eat less nitrate than the bale's mean",
    range: "direction only",
    label: PRACTICE_STUBBLE_LABEL,
    computes: "not in arithmetic: the bale's mean",
  },
];

/** The same for one crop: a sorghum type waits for its prussic acid by whichever route. */
export function practiceFor(crop: CropKey): readonly CommonPractice[] {
  const sorghum = PRUSSIC_CROPS.includes(crop);
  return COMMON_PRACTICE.map((row) =>
    row.quantity === FERMENTING
      ? {
          ...row,
          computes: sorghum
            ? `${PRUSSIC_WAIT_WEEKS.value} weeks for prussic acid, wrapped or chopped: published`
            : `wrapped bales ${WAIT_WEEKS["wrapped-bales"].value} weeks, chopped ${WAIT_WEEKS["wilted-chop"].value}: published`,
        }
      : row,
  );
}
