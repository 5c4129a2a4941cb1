import { useEffect, useState } from "preact/hooks";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { unitsKept } from "../format/words.ts";
import type { State } from "../state/state.ts";

/** Who waits less than this for the chances is not told of it, ms. */
const LATE_MS = 1000;

/** What the chances say of the choice: runner-up, what would turn it, when to cut; until then how far they are. */
export function OddsLine({
  answer,
  odds,
  choice,
  rules = true,
}: {
  readonly answer: WindowsAnswer;
  readonly odds: State["odds"];
  /** The runner-up and what would turn the choice; empty where there is none. */
  readonly choice: string;
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
  if (answer.odds) {
    const best = answer.best.overall;
    const rule = answer.odds.cutRules.find(({ route }) => route === best?.route) ?? answer.odds.cutRules[0];
    return (
      <div class="odds-line">
        {choice === "" ? null : <p class="why">{unitsKept(choice)}</p>}
        {rules && rule ? <p class="why cut-rule">{unitsKept(rule.text)}</p> : null}
      </div>
    );
  }
  return (
    <div class="odds-line">
      {late && odds ? (
        <p class="progress-bar">
          <progress max={odds.of} value={odds.done} aria-label="Chances being worked out" />
          <span aria-hidden="true">
            {odds.done} of {odds.of} cuts: chances being worked out. They may turn the choice.
          </span>
        </p>
      ) : null}
    </div>
  );
}
