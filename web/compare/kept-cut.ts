import { utcMs } from "../format/farm-time.ts";
import type { Kept } from "../state/state.ts";

export function cutUtcOf({ option, course }: Kept): string {
  return option.cutUtc ?? course.hours.startUtc[0] ?? course.usableUntilUtc;
}

/** Moment from which a course runs: the middle of its mowing. */
export function courseCutMs(cut: Kept): number {
  return utcMs(cut.option.courseCutUtc ?? cutUtcOf(cut));
}
