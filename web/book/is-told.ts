import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";

/** Whether a real forecast's odds of the chosen row are there, so that what was told can be kept. */
export function isTold({ source, answer, course }: Picture, { option }: Choice): boolean {
  return (
    source.kind !== "sample" &&
    answer.odds !== undefined &&
    course?.optionId === option.id &&
    course.course.odds !== undefined
  );
}
