import type { OperationKind } from "../../drying/keys.ts";
import type { LossStep, LossStepKey } from "./loss-chain.ts";
import { PASS_SPREAD, passLoss } from "./passes.ts";

/** Losses as an answer tells them, with their spread and source found again. */

const PASSES: readonly LossStepKey[] = ["ted", "rake", "invert"];

/** The spread in proportion to the loss, as each step's own makers scale it; never past all of it. */
function scaled(like: LossStep, pct: number): LossStep {
  const by = like.pct > 0 ? pct / like.pct : 0;
  const most = (one: number) => Math.min(100, one);
  return { ...like, pct, lowPct: most(like.lowPct * by), highPct: most(Math.max(pct, like.highPct * by)) };
}

/**
 * @param told steps of an answer, each kind once
 * @param like the same route's steps for any history that breathes and is rained on: their spread is in proportion
 */
export function withSpread(
  told: readonly { readonly step: LossStepKey; readonly pct: number }[],
  like: readonly LossStep[],
): LossStep[] {
  return told.map(({ step, pct }) => {
    const known = like.find((one) => one.step === step);
    if (known) return scaled(known, pct);
    // Passes of one kind are told as one: spread and source are those of a single pass.
    if (!PASSES.includes(step)) return { step, pct, lowPct: pct, highPct: pct, source: "" };
    const { source } = passLoss(step as OperationKind, "alfalfa", 0.4);
    return {
      step,
      pct,
      lowPct: pct * PASS_SPREAD.low.value,
      highPct: Math.min(100, pct * PASS_SPREAD.high.value),
      source,
    };
  });
}
