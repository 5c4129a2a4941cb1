import { useCallback, useLayoutEffect, useReducer, useRef } from "preact/hooks";
import type { Action } from "../state/action.ts";
import { reduce } from "../state/reducer.ts";
import type { Sample, State } from "../state/state.ts";
import { fetchSamples } from "../weather/samples.ts";
import type { Tried, Try } from "../worker/messages.ts";
import type { Dispatch } from "./asker.ts";
import type { Beginning } from "./begin.ts";
import { type Asked, ask, fromNow, rateText } from "./question.ts";
import { useOdds } from "./use-odds.ts";

export type { Dispatch };

/** What is set going before anything is drawn: the worker and the samples come while the page is still being made. */
export function loadSamples(
  dispatch: Dispatch,
  coming: Promise<readonly Sample[]> = fetchSamples(),
  first: string | null = null,
): void {
  coming
    .then((samples) => dispatch({ kind: "samples", samples, first }))
    .catch((error: unknown) => {
      const message = error instanceof Error ? error.message : String(error);
      dispatch({ kind: "no-samples", message });
    });
}

/** Boards that are worked out beside the picture's own: one a try, or none where the worker fell over. */
export type Tries = (tries: readonly Try[]) => Promise<readonly Tried[]>;

export interface Model {
  readonly state: State;
  readonly dispatch: Dispatch;
  /** Asks the last question once more. */
  readonly again: () => void;
  readonly tries: Tries;
}

/** The page's state, kept together with the worker that runs the model for it. */
export function useModel(beginning: Beginning): Model {
  const { asker } = beginning;
  const [state, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () => beginning.state);
  const { source, inputs, selection, readings, made, locale, nowMs } = state;
  const { units } = state.preferences;
  // The selection is read when a question leaves, not watched: a change of it asks for a course alone.
  const selectionNow = useRef(selection);
  selectionNow.current = selection;

  // Before the frame is painted, here and where a question leaves: the worker works while the page paints.
  useLayoutEffect(() => {
    asker.follow(dispatch, () => selectionNow.current);
    if (beginning.asked === null) loadSamples(dispatch, beginning.samples, beginning.link.sampleId);
    return () => asker.stop();
  }, []);

  // What is past is no longer offered: the board of weather that lies ahead moves on with the hour.
  const { nowUtc } = fromNow(source, nowMs);
  const rate = rateText(state);
  const asked = useRef<Asked | null>(beginning.asked);
  const again = () => {
    asked.current = ask(asker, state, asked.current);
  };
  const onItsWay = useRef(beginning.asked !== null);
  useLayoutEffect(() => {
    // The first question may have left before anything was drawn.
    if (!onItsWay.current) again();
    onItsWay.current = false;
  }, [source, inputs, rate, readings, made, locale, units, nowUtc]);

  useOdds(state, asker, dispatch);

  const tries = useCallback<Tries>((wanted) => asker.tries(wanted), []);
  return { state, dispatch, again, tries };
}
