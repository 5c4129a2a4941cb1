import { useEffect, useState } from "preact/hooks";
import { CREW_CHOICES, CREW_LIMITS } from "../../model/crew/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { NumberField } from "./NumberField.tsx";
import type { Crew } from "./use-crew.ts";

export interface SearchProps {
  readonly crew: Crew;
  readonly manner: Manner;
  readonly timeLimitS: number | undefined;
  readonly onTimeLimit: (timeLimitS: number) => void;
}

const TICK_MS = 250;

/** Time since the search began, s; 0 while there is none. */
function useElapsedS(searching: boolean): number {
  const [elapsedS, setElapsedS] = useState(0);
  useEffect(() => {
    if (!searching) return;
    const beganMs = performance.now();
    setElapsedS(0);
    const timer = setInterval(() => setElapsedS((performance.now() - beganMs) / 1000), TICK_MS);
    return () => clearInterval(timer);
  }, [searching]);
  return searching ? elapsedS : 0;
}

/** "at most 2.4 % short of the best"; empty while nothing is known of it. */
function gapWords(gap: number | null | undefined, manner: Manner): string {
  return gap == null || !Number.isFinite(gap)
    ? ""
    : `, at most ${numberText(Math.ceil(gap * 1000) / 10, 1, manner)} % short of the best`;
}

interface State {
  readonly words: string;
  readonly done: number;
  readonly of: number;
}

function stateOf(
  { busy, windows, progress, refining }: Crew,
  manner: Manner,
  elapsedS: number,
  limitS: number,
) {
  const state = (words: string, done: number, of: number): State => ({ words, done, of });
  if (busy === null) return null;
  if (windows !== null) {
    const { done, of } = windows;
    const what = refining ? "Reading all members" : "Reading the forecast";
    return state(`${what}: windows of ${done} of ${of} fields`, done, of);
  }
  if (busy === "plan") return state("Placing the works", 0, 0);
  const said = `Searching, ${Math.floor(elapsedS)} of ${Math.round(limitS)} s${gapWords(progress?.gap, manner)}`;
  return state(
    elapsedS > limitS ? `Comparing plans${gapWords(progress?.gap, manner)}` : said,
    elapsedS,
    limitS,
  );
}

/** What is being worked out and how far it is; a longer search with its limit, and the way to stop it. */
export function Search({ crew, manner, timeLimitS, onTimeLimit }: SearchProps) {
  const { busy, answer } = crew;
  const limitS = timeLimitS ?? CREW_CHOICES.timeLimitS.value;
  const elapsedS = useElapsedS(busy === "prove");
  const state = stateOf(crew, manner, elapsedS, limitS);
  return (
    <div class="crew-search">
      {state === null ? (
        answer === null ? null : (
          <div class="crew-buttons crew-limit">
            <button type="button" class="aid" onClick={() => crew.prove(limitS)}>
              Look for a better plan
            </button>
            <NumberField
              label="For at most, seconds"
              value={limitS}
              limit={CREW_LIMITS.timeLimitS}
              manner={manner}
              onValue={onTimeLimit}
            />
          </div>
        )
      ) : (
        <div class="crew-buttons">
          {answer === null ? null : (
            <button type="button" class="aid" onClick={crew.cancel}>
              Stop, keep the best so far
            </button>
          )}
          <span>{state.words}</span>
          {state.of > 0 ? (
            <progress aria-label={state.words} max={state.of} value={Math.min(state.done, state.of)} />
          ) : null}
        </div>
      )}
    </div>
  );
}
