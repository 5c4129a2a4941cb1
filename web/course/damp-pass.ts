import type { DrydownAnswer } from "../../model/drying/answer.ts";
import { courseIndexAt } from "./reading.ts";

/** Water on the swath below this is no word worth, mm. */
const WATER_TOLD_MM = 0.02;

/** What the hour of a pass lacks: the swath is wet outside, or as dry as the air makes it; "" where it dries. */
export function dampSentence(course: DrydownAnswer, atMs: number): string {
  const i = courseIndexAt(course, atMs);
  if (i === null) return "";
  const { freeWaterMm, dewMm, moistureWb, equilibriumWb } = course.hours;
  if ((freeWaterMm[i] ?? 0) > WATER_TOLD_MM || (dewMm[i] ?? 0) > WATER_TOLD_MM)
    return "Dew or rain lies on the swath then.";
  return (equilibriumWb[i] ?? 0) >= (moistureWb[i] ?? 1)
    ? "The air takes up nothing from the swath then."
    : "";
}
