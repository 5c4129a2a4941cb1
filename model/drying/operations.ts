import { type Coefficient, coefficient } from "../coefficient.ts";
import type { Crop } from "./crops.ts";
import type { OperationKind } from "./keys.ts";

/** One pass of a tedder, rake or inverter at a moment; `coveredFraction` null = the operation's default. */
export interface Operation {
  readonly kind: OperationKind;
  readonly atUtcMs: number;
  readonly coveredFraction: number | null;
}

function assumed(value: number, unit: string, source: string): Coefficient {
  return coefficient(value, unit, "assumed", source);
}

/** Share of the cut width covered after a pass, where the request does not say. An inverter leaves it as it was. */
export const COVER_AFTER: Readonly<Record<"ted" | "rake", Coefficient>> = {
  ted: assumed(0.95, "-", "a tedder spreads nearly all the ground"),
  rake: assumed(0.3, "-", "a windrow of 25-30 % of the cut width"),
};

/** Dry-matter loss of a pass, per cent of what lies there. */
export const OPERATION_LOSS = {
  tedWetPct: coefficient(
    1,
    "%",
    "published",
    "alfalfa at 70-80 % moisture 1 %, at 50 % 2-3 % (MacDonald & Clark 1987)",
    [1, 5],
  ),
  tedDryPct: coefficient(
    0.055,
    "1/point",
    "assumed",
    "constructed: legume tedding grows from 1 % at 70 % to about 15 % near 20 % (Alberta Agriculture: under 5 % above 50 %, to 15 % when drier)",
    [0.02, 0.06],
  ),
  tedGrassMostPct: coefficient(
    2.5,
    "%",
    "published",
    "tedding grass 2-3 % (Alberta Agriculture, hay harvesting losses); wetter than about 53 % the legume curve, which is lower there, computes",
    [2, 3],
  ),
  rakePct: coefficient(
    3.5,
    "%",
    "published",
    "wide swath to windrow at moderate moisture (Rotz & Abrams 1988); taken as 40 % moisture and 3 t/ha",
    [1, 20],
  ),
  rakeDryPerPoint: coefficient(
    0.055,
    "1/point",
    "assumed",
    "constructed curve: 3.5 -> 10.5 % at 20 % wb",
    [0.03, 0.08],
  ),
  rakeYieldTHa: coefficient(
    3,
    "t DM/ha",
    "assumed",
    "constructed: the loss is inversely related to yield (Rotz & Abrams 1988); this yield is taken to have the printed loss",
    [2, 4],
  ),
  invertPct: coefficient(0.8, "%", "published", "windrow turning (Rotz & Abrams 1988)", [0.8, 3]),
  grassShare: coefficient(
    0.35,
    "-",
    "assumed",
    "constructed: grass loses about a third of what legumes lose",
    [0.25, 0.6],
  ),
  mostPct: coefficient(25, "%", "assumed", "cap of the constructed curves", [20, 25]),
} as const;

/** New share of the cut width that the swath covers. */
export function coverAfter(operation: Operation, coveredFraction: number): number {
  if (operation.coveredFraction !== null) return operation.coveredFraction;
  return operation.kind === "invert" ? coveredFraction : COVER_AFTER[operation.kind].value;
}

/**
 * Share of dry matter lost in a pass, 0-0.25.
 *
 * @param moistureWb tissue moisture, wet basis
 * @param yieldTHa dry matter that lies there, t/ha of the field, above 0: a rake drops a larger share of a thin crop
 */
export function operationLoss(
  kind: OperationKind,
  crop: Crop,
  moistureWb: number,
  yieldTHa: number = OPERATION_LOSS.rakeYieldTHa.value,
): number {
  const moisturePct = moistureWb * 100;
  const { tedWetPct, tedDryPct, tedGrassMostPct, rakePct, rakeDryPerPoint, rakeYieldTHa } = OPERATION_LOSS;
  const share = crop.legume ? 1 : OPERATION_LOSS.grassShare.value;
  const most = OPERATION_LOSS.mostPct.value;
  if (kind === "ted") {
    const pct = tedWetPct.value * Math.exp(tedDryPct.value * Math.max(0, 70 - moisturePct));
    return Math.min(crop.legume ? most : tedGrassMostPct.value, pct) / 100;
  }
  if (kind === "invert") return (share * OPERATION_LOSS.invertPct.value) / 100;
  const pct =
    rakePct.value *
    (rakeYieldTHa.value / yieldTHa) *
    Math.exp(rakeDryPerPoint.value * Math.max(0, 40 - moisturePct));
  return (share * Math.min(most, pct)) / 100;
}
