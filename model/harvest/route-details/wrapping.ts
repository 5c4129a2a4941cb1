import { coefficient } from "../../coefficient.ts";
import type { CropKey } from "../../drying/keys.ts";
import { isCoarse } from "../bands.ts";

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

export function filmLayers(crop: CropKey): number {
  return isCoarse(crop) ? WRAPPING.coarseLayers.value : WRAPPING.layers.value;
}
