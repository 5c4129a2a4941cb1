import { coefficient } from "../../coefficient.ts";
import type { CropKey } from "../../drying/keys.ts";
import { requireRange } from "../../limits.ts";
import { isCoarse } from "../bands.ts";
import { ROUTE_DETAIL_LIMITS } from "./limits.ts";

/** Film-wrapped bales: hours from baler to film, and layers of film. */
export const WRAPPING = {
  lateH: coefficient(
    12,
    "h",
    "published",
    "small grain 12-24 h (University of Kentucky, 2020); an old rule says 2 h: shorter is better",
    [2, 24],
  ),
  tooLateH: coefficient(24, "h", "published", "24 h at the most (University of Arkansas, 2020)", [12, 24]),
  layers: coefficient(
    6,
    "layers of 1 mil",
    "published",
    "at least 4 (University of Kentucky), 6 mil in all to stop heating (University of Wisconsin): the stricter computes",
    [4, 8],
  ),
  coarseLayers: coefficient(
    8,
    "layers of 1 mil",
    "from-memory",
    "coarse stems puncture film; 6 published for corn",
    [6, 8],
  ),
  tearsKg: coefficient(
    1400 * 0.45359237,
    "kg as it is",
    "published",
    "square bales over 1400 lb tear the film (University of Wisconsin)",
    null,
  ),
  keepsMonths: coefficient(
    12,
    "months",
    "from-memory",
    "feed within about a year; patch holes the day they are found",
    [6, 15],
  ),
} as const;

/** Butyric acid by hours to the film, per cent: a field trial with 8 layers. */
export const BUTYRIC_BY_DELAY = [
  { fromH: 0, toH: 0, pct: 0 },
  { fromH: 2, toH: 8, pct: 0.2 },
  { fromH: 24, toH: 24, pct: 0.55 },
] as const;
export const BUTYRIC_SOURCE =
  "Wrapping time to save quality, field trial, 8 layers (reported in trade press)";

export function filmLayers(crop: CropKey): number {
  return isCoarse(crop) ? WRAPPING.coarseLayers.value : WRAPPING.layers.value;
}

export interface WrapDelay {
  readonly level: "in-time" | "late" | "too-late";
  readonly text: string;
}

/** @param hours from the baler to the film, 0 and more */
export function wrapDelay(hours: number): WrapDelay {
  const { min, max } = ROUTE_DETAIL_LIMITS.wrapDelayH;
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
