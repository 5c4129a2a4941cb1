import { useEffect, useReducer, useRef } from "preact/hooks";
import { DEMO_INPUTS } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import { type Action, reduce } from "../state/reducer.ts";
import { firstState, type Start, type State } from "../state/state.ts";
import { fetchSamples } from "../weather/samples.ts";
import type { Ask, Tell } from "../worker/messages.ts";

/** A pause in typing after which the model is asked, ms. */
const REST_MS = 120;

export type Dispatch = (action: Action) => void;

export function loadSamples(dispatch: Dispatch): void {
  fetchSamples()
    .then((samples) => dispatch({ kind: "samples", samples }))
    .catch((error: unknown) => {
      const message = error instanceof Error ? error.message : String(error);
      dispatch({ kind: "no-samples", message });
    });
}

function start(): Start {
  return {
    timeZone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
    locale: navigator.language,
    nowMs: Date.now(),
    online: navigator.onLine,
    preferences: { units: "metric", theme: "system" },
    inputs: DEMO_INPUTS,
  };
}

/** The page's state, kept together with the worker that runs the model for it. */
export function useModel(): readonly [State, Dispatch] {
  const [state, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState(start()),
  );
  const worker = useRef<Worker | null>(null);
  const lastId = useRef(0);
  const { source, inputs, selection, picture } = state;

  useEffect(() => {
    const running = new Worker(new URL("../worker/worker.ts", import.meta.url), { type: "module" });
    running.onmessage = ({ data }: MessageEvent<Tell>) => dispatch({ kind: "told", tell: data });
    running.onerror = (event) => {
      const message = event.message || "the model could not be started";
      dispatch({
        kind: "told",
        tell: { kind: "refused", id: lastId.current, issues: [{ path: "", code: "worker", message }] },
      });
    };
    worker.current = running;
    loadSamples(dispatch);
    return () => running.terminate();
  }, []);

  // The selection is read here, not watched: a change of it asks for a course alone.
  const selectionNow = useRef(selection);
  selectionNow.current = selection;

  useEffect(() => {
    if (source === null) return;
    const { question } = readInputs(inputs);
    if (question === null) return;
    const timer = setTimeout(() => {
      const id = ++lastId.current;
      dispatch({ kind: "asked", id });
      const request = { ...question, weather: source.series };
      const ask: Ask = { kind: "board", id, request, selection: selectionNow.current };
      worker.current?.postMessage(ask);
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [source, inputs]);

  const pictureId = picture?.id;
  useEffect(() => {
    if (selection === null || pictureId === undefined) return;
    const ask: Ask = { kind: "course", id: pictureId, selection };
    worker.current?.postMessage(ask);
  }, [selection, pictureId]);

  return [state, dispatch];
}
