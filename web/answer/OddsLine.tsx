import { useEffect, useState } from "preact/hooks";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { unitsKept } from "../format/words.ts";
import type { State } from "../state/state.ts";

/** Who waits less than this for the chances is not told of it, ms. */
const LATE_MS = 1000;

/** The one line under the answer: what the costs say of cutting, else how far the chances are, else the reason. */
export function OddsLine({
  answer,
  odds,
  otherwise,
  equal = "",
  rules = true,
}: {
  readonly answer: WindowsAnswer;
  readonly odds: State["odds"];
  /** What is said where neither is to be told; empty for nothing. */
  readonly otherwise: string;
  /** Said after a rule: the cut that is as good as the best; empty for none. */
  readonly equal?: string;
  /** False where nothing can be cut any more. */
  readonly rules?: boolean;
}) {
  const [late, setLate] = useState(false);
  const waiting = answer.odds === undefined;
  useEffect(() => {
    setLate(false);
    if (!waiting) return;
    const timer = setTimeout(() => setLate(true), LATE_MS);
    return () => clearTimeout(timer);
  }, [waiting]);
  const best = answer.best.overall;
  const costs = answer.odds?.cutRules ?? [];
  const rule = rules ? (costs.find(({ route }) => route === best?.route) ?? costs[0]) : undefined;
  const line = rule ? `${rule.text} ${equal}`.trim() : otherwise;
  return (
    <div class="odds-line">
      {waiting && late && odds ? (
        <p class="progress-bar">
          <progress max={odds.of} value={odds.done} aria-label="Chances being worked out" />
          <span aria-hidden="true">
            {odds.done} of {odds.of} cuts: chances being worked out. They may turn the choice.
          </span>
        </p>
      ) : line === "" ? null : (
        <p class={rule ? "why cut-rule" : "why"}>{unitsKept(line)}</p>
      )}
    </div>
  );
}
