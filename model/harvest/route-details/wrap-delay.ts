import { requireRange } from "../../limits.ts";
import { WRAP_DELAY_H } from "./limits.ts";
import { WRAPPING } from "./wrapping.ts";

/** Butyric acid by hours to the film, per cent: a field trial with 8 layers. */
export const BUTYRIC_BY_DELAY = [
  { fromH: 0, toH: 0, pct: 0 },
  { fromH: 2, toH: 8, pct: 0.2 },
  { fromH: 24, toH: 24, pct: 0.55 },
] as const;
export const BUTYRIC_SOURCE =
  "Wrapping time to save quality, field trial, 8 layers (reported in trade press)";

export interface WrapDelay {
  readonly level: "in-time" | "late" | "too-late";
  readonly text: string;
}

/** @param hours from the baler to the film, 0 and more */
export function wrapDelay(hours: number): WrapDelay {
  const { min, max } = WRAP_DELAY_H;
  requireRange("wrapDelay", "hours", hours, min, max);
  const { lateH, tooLateH } = WRAPPING;
  if (hours > tooLateH.value)
    return {
      level: "too-late",
      text: `Over ${tooLateH.value} hours after baling: do not wrap and count on it. It heats and spoils.`,
    };
  if (hours > lateH.value)
    return {
      level: "late",
      text: `Over ${lateH.value} hours after baling: butyric acid is likely. Test it before feeding.`,
    };
  return { level: "in-time", text: `Within ${lateH.value} hours of baling; sooner is better.` };
}
