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
  // Alberta Agriculture: tedding under 5 % above 50 % moisture; grass 2-3 %; alfalfa to 15 % when drier.
  tedWetPct: assumed(1, "%", "1 % at 70-80 % wb (MacDonald & Clark 1987)"),
  tedDryPct: assumed(0.055, "1/point", "legume tedding grows from 1 % at 75 % to about 15 % near 20 %"),
  // Rotz & Abrams 1988: raking 3.5 % at moderate moisture; the curve below 40 % is constructed, not published.
  rakePct: assumed(3.5, "%", "Rotz & Abrams 1988 at 40 % wb and 3 t/ha"),
  rakeDryPerPoint: assumed(0.055, "1/point", "constructed curve: 3.5 -> 10.5 % at 20 % wb"),
  invertPct: assumed(0.8, "%", "windrow turning, Rotz & Abrams 1988"),
  grassShare: assumed(0.35, "-", "grass loses about a third of what legumes lose"),
  mostPct: assumed(25, "%", "cap of the constructed curves"),
} as const;

/** New share of the cut width that the swath covers. */
export function coverAfter(operation: Operation, coveredFraction: number): number {
  if (operation.coveredFraction !== null) return operation.coveredFraction;
  return operation.kind === "invert" ? coveredFraction : COVER_AFTER[operation.kind].value;
}

/** Share of dry matter lost in a pass at this tissue moisture (wet basis), 0-0.25. */
export function operationLoss(kind: OperationKind, crop: Crop, moistureWb: number): number {
  const moisturePct = moistureWb * 100;
  const share = crop.legume ? 1 : OPERATION_LOSS.grassShare.value;
  const { tedWetPct, tedDryPct, rakePct, rakeDryPerPoint, invertPct, mostPct } = OPERATION_LOSS;
  const pct =
    kind === "ted"
      ? tedWetPct.value * Math.exp(tedDryPct.value * Math.max(0, 70 - moisturePct))
      : kind === "rake"
        ? rakePct.value * Math.exp(rakeDryPerPoint.value * Math.max(0, 40 - moisturePct))
        : invertPct.value;
  return (share * Math.min(mostPct.value, pct)) / 100;
}
