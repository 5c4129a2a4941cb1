import { CUTTING_HEIGHT, STALK_NITRATE } from "../../model/harvest/route-details/index.ts";
import { type Manner, steppedText } from "../format/manner.ts";
import { heightText, type ToldHeight } from "./height.ts";

/** A stalk with its thirds and the heights that are cut at: where each stands in the picture. */

export interface PlantLine {
  readonly key: "now" | "recommended";
  readonly cm: number;
  readonly text: string;
}

export interface PlantPicture {
  readonly heightPx: number;
  readonly groundY: number;
  readonly topY: number;
  readonly soilY: number;
  /** Thirds of the stalk from the foot up, with their share of the plant's nitrate; empty without a known height. */
  readonly thirds: readonly { readonly y: number; readonly height: number; readonly nitrateShare: number }[];
  readonly lines: readonly (PlantLine & { readonly y: number; readonly textY: number })[];
}

const TOP_PX = 14;
const PLANT_PX = 190;
const FOOT_PX = 26;
const LINE_PX = 18;
/** Drawn tall enough for its cuts where its height is not known. */
const LEAST_CM = 60;

/** The heights as the picture names them, short enough for a phone: one line where both are the same. */
export function cutLines(
  stubbleCm: number,
  row: ToldHeight,
  manner: Pick<Manner, "units" | "locale">,
): PlantLine[] {
  const now = steppedText(stubbleCm, "stubble", manner);
  const wanted = heightText(row, manner);
  if (now === wanted) return [{ key: "recommended", cm: stubbleCm, text: `${wanted}: now, and advised` }];
  return [
    { key: "now", cm: stubbleCm, text: `now ${now}` },
    { key: "recommended", cm: row.cm, text: `advised ${wanted}` },
  ];
}

export function plantPicture(plantHeightCm: number | null, lines: readonly PlantLine[]): PlantPicture {
  const shownCm = plantHeightCm ?? Math.max(LEAST_CM, 2 * Math.max(...lines.map(({ cm }) => cm), 0));
  const groundY = TOP_PX + PLANT_PX;
  const yOf = (cm: number) => groundY - (Math.min(cm, shownCm) / shownCm) * PLANT_PX;
  const parts = [STALK_NITRATE.lower, STALK_NITRATE.middle, STALK_NITRATE.upper];
  const all = Object.values(STALK_NITRATE).reduce(
    (sum, { ppm, dryShare }) => sum + ppm.value * dryShare.value,
    0,
  );
  const third = PLANT_PX / 3;
  let textY = groundY + LINE_PX;
  return {
    heightPx: groundY + FOOT_PX,
    groundY,
    topY: TOP_PX,
    soilY: yOf(CUTTING_HEIGHT.soilUnderCm.value),
    thirds:
      plantHeightCm === null
        ? []
        : parts.map(({ ppm, dryShare }, i) => ({
            y: groundY - (i + 1) * third,
            height: third,
            nitrateShare: (ppm.value * dryShare.value) / all,
          })),
    // From the foot up, so that words that would touch are pushed upward.
    lines: lines
      .toSorted((a, b) => a.cm - b.cm)
      .map((line) => {
        const y = yOf(line.cm);
        textY = Math.min(y + 4, textY - LINE_PX);
        return { ...line, y, textY };
      }),
  };
}
