import { HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Kept } from "../state/state.ts";

export function cutUtcOf({ option, course }: Kept): string {
  return option.cutUtc ?? course.hours.startUtc[0] ?? course.usableUntilUtc;
}

/** A windrow is what a baler gathers without a rake; wider is wide. */
export function widthClass(coveredFraction: number): "wide" | "windrow" {
  return coveredFraction <= HARVEST_DEFAULTS.windrowCover.value ? "windrow" : "wide";
}

/** Moment from which a course runs: the middle of its mowing. */
export function courseCutMs(cut: Kept): number {
  return utcMs(cut.option.courseCutUtc ?? cutUtcOf(cut));
}
