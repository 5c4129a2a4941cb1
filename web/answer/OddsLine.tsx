import { useEffect, useState } from "preact/hooks";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { unitsKept } from "../format/words.ts";
import type { State } from "../state/state.ts";
import { firstSentence } from "./told.ts";

/** Who waits less than this for the chances is not told of it, ms. */
const LATE_MS = 1000;

/** Under the answer: what the costs say of cutting, and the one line of the choice; or how far the chances are. */
export function OddsLine({
  answer,
  odds,
  line,
  noRule = "",
  rules = true,
}: {
  readonly answer: WindowsAnswer;
  readonly odds: State["odds"];
  /** The choice, else the reason; empty for nothing. */
  readonly line: string;
  /** Why no rule of the costs is told; empty where none is asked for. */
  readonly noRule?: string;
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
  const [said, rest] = firstSentence(line);
  const ruled = rule?.text ?? noRule;
  return (
    <div class="odds-line">
      {waiting && late && odds ? (
        <p class="progress-bar">
          <progress max={odds.of} value={odds.done} aria-label="Chances being worked out" />
          <span aria-hidden="true">
            {odds.done} of {odds.of} cuts: chances being worked out. They may turn the choice.
          </span>
        </p>
      ) : (
        <>
          {ruled === "" ? null : <p class={rule ? "why cut-rule" : "why"}>{unitsKept(ruled)}</p>}
          {line === "" ? null : (
            <p class="why">
              {unitsKept(said)} <span class="with-room">{unitsKept(rest)}</span>
            </p>
          )}
        </>
      )}
    </div>
  );
}
