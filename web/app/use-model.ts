import { useEffect, useReducer, useRef } from "preact/hooks";
import type { WindowsRequest } from "../../model/harvest/index.ts";
import type { Selection } from "../state/choice.ts";
import { DEMO_INPUTS, type Inputs } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import { type Action, reduce } from "../state/reducer.ts";
import { firstState, type Start, type State, type WeatherSource } from "../state/state.ts";
import { fetchSamples } from "../weather/samples.ts";
import type { Ask, Tell } from "../worker/messages.ts";

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

/** What is to be asked of the worker, and of what weather and inputs: for the picture that the answer becomes. */
interface Question {
  readonly source: WeatherSource;
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
}

/**
 * The worker answers one question at a time. What is asked while it works waits, and only the latest of it is kept: a
 * lever that is moved fast is followed as fast as the model runs, and never falls behind.
 */
class Asker {
  readonly #worker = new Worker(new URL("../worker/worker.ts", import.meta.url), { type: "module" });
  readonly #dispatch: Dispatch;
  readonly #selection: () => Selection | null;
  #lastId = 0;
  #busy = false;
  #waiting: Question | null = null;

  constructor(dispatch: Dispatch, selection: () => Selection | null) {
    this.#dispatch = dispatch;
    this.#selection = selection;
    this.#worker.onmessage = ({ data }: MessageEvent<Tell>) => {
      if (data.kind !== "course") this.#free();
      dispatch({ kind: "told", tell: data });
    };
    this.#worker.onerror = (event) => {
      this.#free();
      const message = event.message || "the model could not be started";
      const issues = [{ path: "", code: "worker", message }];
      dispatch({ kind: "told", tell: { kind: "refused", id: this.#lastId, issues } });
    };
  }

  #free(): void {
    this.#busy = false;
    const next = this.#waiting;
    this.#waiting = null;
    if (next) this.ask(next);
  }

  ask(question: Question): void {
    if (this.#busy) {
      this.#waiting = question;
      return;
    }
    this.#busy = true;
    const id = ++this.#lastId;
    const { source, inputs, request } = question;
    this.#dispatch({ kind: "asked", id, source, inputs });
    this.#send({ kind: "board", id, request, selection: this.#selection() });
  }

  course(id: number, selection: Selection): void {
    this.#send({ kind: "course", id, selection });
  }

  #send(ask: Ask): void {
    this.#worker.postMessage(ask);
  }

  stop(): void {
    this.#worker.terminate();
  }
}

/** The page's state, kept together with the worker that runs the model for it. */
export function useModel(): readonly [State, Dispatch] {
  const [state, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState(start()),
  );
  const { source, inputs, selection, picture } = state;
  // The selection is read when a question leaves, not watched: a change of it asks for a course alone.
  const selectionNow = useRef(selection);
  selectionNow.current = selection;
  const asker = useRef<Asker | null>(null);

  useEffect(() => {
    const running = new Asker(dispatch, () => selectionNow.current);
    asker.current = running;
    loadSamples(dispatch);
    return () => running.stop();
  }, []);

  useEffect(() => {
    if (source === null) return;
    const { question } = readInputs(inputs);
    if (question === null) return;
    asker.current?.ask({ source, inputs, request: { ...question, weather: source.series } });
  }, [source, inputs]);

  const pictureId = picture?.id;
  useEffect(() => {
    if (selection === null || pictureId === undefined) return;
    asker.current?.course(pictureId, selection);
  }, [selection, pictureId]);

  return [state, dispatch];
}
