import { coefficient } from "../../coefficient.ts";

/** Hay grades by relative feed value, best first; prices of a ladder are the user's. */
export const HAY_GRADES = [
  { grade: "supreme", aboveRfv: 185 },
  { grade: "premium", aboveRfv: 170 },
  { grade: "good", aboveRfv: 150 },
  { grade: "fair", aboveRfv: 130 },
  { grade: "utility", aboveRfv: 0 },
] as const;
export type HayGrade = (typeof HAY_GRADES)[number]["grade"];
export const HAY_GRADES_SOURCE =
  "supreme over 185, premium 170-185, good 150-170, fair 130-150, utility under 130: from memory";

/** Relative feed value lost for each day that spring growth stands. */
export const RFV_PER_STANDING_DAY = coefficient(
  4,
  "RFV points a day",
  "published",
  "about 4 points a day in spring growth (Ohio State, stored forage)",
  null,
);

export function gradeOf(rfv: number): HayGrade {
  return HAY_GRADES.find(({ aboveRfv }) => rfv >= aboveRfv)?.grade ?? "utility";
}

/**
 * Value lost with a share of the dry matter and, where the grade fell, with the ladder's step.
 *
 * @param lossPct per cent of the dry matter
 * @param pricePerT of the grade before
 * @param priceAfterPerT of the grade after; absent = the same
 * @returns a tonne of the dry matter that stood
 * @example valueLostPerT(4, 220) // 8.80
 */
export function valueLostPerT(lossPct: number, pricePerT: number, priceAfterPerT = pricePerT): number {
  return pricePerT - (1 - lossPct / 100) * priceAfterPerT;
}
