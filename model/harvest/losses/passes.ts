import { CROP_CATALOGUE } from "../../drying/crops.ts";
import type { CropKey, OperationKind } from "../../drying/keys.ts";
import { OPERATION_LOSS, operationLoss } from "../../drying/operations.ts";
import type { LossStep } from "./loss-chain.ts";

const SOURCES: Readonly<Record<OperationKind, string>> = {
  ted: `${OPERATION_LOSS.tedWetPct.source}; ${OPERATION_LOSS.tedDryPct.source} (assumed)`,
  rake: `${OPERATION_LOSS.rakePct.source}; below that a ${OPERATION_LOSS.rakeDryPerPoint.source}`,
  invert: OPERATION_LOSS.invertPct.source,
};

/** How far one pass may be off: Penn State gives raking 1-20 % with a mean of 5, inverting 1-3 with a mean of 1. */
const LOW_SHARE = 0.4;
const HIGH_SHARE = 2.5;

/**
 * Loss of one pass of tedder, rake or inverter: the very share that the drying course takes off its dry matter. So the
 * chain starts from the standing crop's dry matter, never from what the course has left at its end.
 *
 * @param moistureWb tissue moisture when the machine passes, wet basis
 */
export function passLoss(kind: OperationKind, crop: CropKey, moistureWb: number): LossStep {
  const pct = 100 * operationLoss(kind, CROP_CATALOGUE[crop], moistureWb);
  const most = OPERATION_LOSS.mostPct.value;
  return {
    step: kind,
    pct,
    lowPct: pct * LOW_SHARE,
    highPct: Math.max(pct, Math.min(most, pct * HIGH_SHARE)),
    source: SOURCES[kind],
  };
}
