import { useEffect, useReducer, useRef } from "preact/hooks";
import type { Saying } from "../../model/harvest/index.ts";
import { hour12Of } from "../format/manner.ts";
import type { Units } from "../format/units.ts";
import { DEMO_INPUTS } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import { type Action, reduce } from "../state/reducer.ts";
import { firstState, type Sample, type Start, type State } from "../state/state.ts";
import { fetchSamples } from "../weather/samples.ts";
import { Asker, type Dispatch, startWorker } from "./asker.ts";

export type { Dispatch };

/** What is set going before anything is drawn: the worker and the samples come while the page is still being made. */
export interface Beginning {
  readonly worker: Worker;
  readonly samples: Promise<readonly Sample[]>;
}

export function begin(): Beginning {
  const samples = fetchSamples();
  // Whoever waits for it is told; until then a failure is not an unhandled one.
  samples.catch(() => {});
  return { worker: startWorker(), samples };
}

export function loadSamples(dispatch: Dispatch, coming: Promise<readonly Sample[]> = fetchSamples()): void {
  coming
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

/** The model's reasons in the manner of the page. A window is shown to 5 minutes: the weather is not known to one. */
function sayingOf(locale: string, units: Units): Saying {
  const decimalMark = (1.5).toLocaleString(locale).includes(",") ? "," : ".";
  return { hour12: hour12Of(locale), units, decimalMark, stepMin: 5 };
}

/** The page's state, kept together with the worker that runs the model for it. */
export function useModel(beginning: Beginning): readonly [State, Dispatch] {
  const [state, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState(start()),
  );
  const { source, inputs, selection, picture, locale } = state;
  const { units } = state.preferences;
  // The selection is read when a question leaves, not watched: a change of it asks for a course alone.
  const selectionNow = useRef(selection);
  selectionNow.current = selection;
  const asker = useRef<Asker | null>(null);

  useEffect(() => {
    const running = new Asker(beginning.worker, dispatch, () => selectionNow.current);
    asker.current = running;
    loadSamples(dispatch, beginning.samples);
    return () => running.stop();
  }, []);

  useEffect(() => {
    if (source === null) return;
    const { question } = readInputs(inputs);
    if (question === null) return;
    const request = { ...question, weather: source.series };
    asker.current?.ask({ source, inputs, request, saying: sayingOf(locale, units) });
  }, [source, inputs, locale, units]);

  const pictureId = picture?.id;
  useEffect(() => {
    if (selection === null || pictureId === undefined) return;
    asker.current?.course(pictureId, selection);
  }, [selection, pictureId]);

  return [state, dispatch];
}
