import { coefficient } from "../../coefficient.ts";
import { CROP_CATALOGUE } from "../../drying/crops.ts";
import type { CropKey, OperationKind } from "../../drying/keys.ts";
import { OPERATION_LOSS, operationLoss } from "../../drying/operations.ts";
import type { LossStep } from "./loss-chain.ts";

const SOURCES: Readonly<Record<OperationKind, string>> = {
  ted: `${OPERATION_LOSS.tedWetPct.source}; ${OPERATION_LOSS.tedDryPct.source}; ${OPERATION_LOSS.tedGrassMostPct.source}`,
  rake: `${OPERATION_LOSS.rakePct.source}; below that a ${OPERATION_LOSS.rakeDryPerPoint.source}; ${OPERATION_LOSS.rakeYieldTHa.source}`,
  invert: OPERATION_LOSS.invertPct.source,
};

const PENN_STATE = "raking 1-20 % with a mean of 5, inverting 1-3 with a mean of 1 (Penn State, 2017)";

/** How far one pass may be off, as a share of its loss. */
export const PASS_SPREAD = {
  low: coefficient(0.4, "-", "assumed", `constructed from ${PENN_STATE}`, [0.2, 1]),
  high: coefficient(2.5, "-", "assumed", `constructed from ${PENN_STATE}`, [1, 4]),
} as const;

/** From this on a pass is told as one that shatters leaf, per cent of the dry matter it passes over. */
export const SHATTER_FROM_PCT = coefficient(
  5,
  "%",
  "published",
  "tedded above 50 % moisture alfalfa loses under 5 %, to 15 % when drier (Alberta Agriculture, hay harvesting losses)",
  [3, 10],
);

/**
 * Loss of one pass of tedder, rake or inverter: the very share that the drying course takes off its dry matter. So the
 * chain starts from the standing crop's dry matter, never from what the course has left at its end.
 *
 * @param moistureWb tissue moisture when the machine passes, wet basis
 * @param yieldTHa dry matter that it passes over, t/ha; absent = the curve's own 3
 */
export function passLoss(
  kind: OperationKind,
  crop: CropKey,
  moistureWb: number,
  yieldTHa?: number,
): LossStep {
  const pct = 100 * operationLoss(kind, CROP_CATALOGUE[crop], moistureWb, yieldTHa);
  const most = OPERATION_LOSS.mostPct.value;
  return {
    step: kind,
    pct,
    lowPct: pct * PASS_SPREAD.low.value,
    highPct: Math.max(pct, Math.min(most, pct * PASS_SPREAD.high.value)),
    source: SOURCES[kind],
  };
}

/** The passes in their order, each over what the ones before have left. */
export function passLosses(
  passes: readonly { readonly kind: OperationKind; readonly moistureWb: number }[],
  crop: CropKey,
  yieldTHa: number | undefined,
): LossStep[] {
  let leftTHa = yieldTHa;
  return passes.map(({ kind, moistureWb }) => {
    const step = passLoss(kind, crop, moistureWb, leftTHa);
    if (leftTHa !== undefined) leftTHa *= 1 - step.pct / 100;
    return step;
  });
}
