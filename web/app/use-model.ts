import { useCallback, useLayoutEffect, useReducer, useRef } from "preact/hooks";
import { type ReadLink, readLink } from "../link/read-link.ts";
import { cutsThatLie, readMade } from "../made/made-cuts.ts";
import { learnedKey, readReadings } from "../reading/readings.ts";
import { readInputs } from "../state/read-inputs.ts";
import { type Action, reduce } from "../state/reducer.ts";
import { firstState, type Sample, type Start, type State, type WeatherSource } from "../state/state.ts";
import { pastOf } from "../states/past.ts";
import { readPreferences } from "../theme/preferences.ts";
import { fetchSamples } from "../weather/samples.ts";
import type { Tried, Try } from "../worker/messages.ts";
import { Asker, type Dispatch, startWorker } from "./asker.ts";
import { takeEarlyStart } from "./early-start.ts";
import { useOdds } from "./use-odds.ts";

export type { Dispatch };

/** What is set going before anything is drawn: the worker and the samples come while the page is still being made. */
export interface Beginning {
  readonly worker: Worker;
  readonly samples: Promise<readonly Sample[]>;
  /** What the address asked for when the page was opened. */
  readonly link: ReadLink;
}

export function begin(): Beginning {
  const early = takeEarlyStart();
  const samples = fetchSamples(early?.samples);
  // Whoever waits for it is told; until then a failure is not an unhandled one.
  samples.catch(() => {});
  const worker = early === null || early.failed ? startWorker() : early.worker;
  return { worker, samples, link: readLink(location.search, { locale: navigator.language }) };
}

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

function start({ link }: Beginning): Start {
  const nowMs = Date.now();
  return {
    timeZone: "",
    locale: navigator.language,
    nowMs,
    online: navigator.onLine,
    preferences: readPreferences(navigator.language),
    inputs: link.inputs,
    ...readReadings(nowMs),
    made: readMade(nowMs),
  };
}

const HOUR_MS = 3_600_000;

/**
 * A forecast, and a file that reaches far enough past now, is of what is to come; invented weather and files of the past
 * are looked at from their first hour on.
 */
function fromNow(source: WeatherSource | null, nowMs: number): { readonly nowUtc?: string } {
  if (source === null || source.kind === "sample" || pastOf(source, nowMs) !== null) return {};
  const hourMs = Math.floor(nowMs / HOUR_MS) * HOUR_MS;
  const { startUtc } = source.series.hours;
  const [first, last] = [Date.parse(startUtc[0] ?? ""), Date.parse(startUtc.at(-1) ?? "")];
  return hourMs < first || hourMs > last ? {} : { nowUtc: `${new Date(hourMs).toISOString().slice(0, 19)}Z` };
}

/** Boards that are worked out beside the picture's own: one a try, or none where the worker fell over. */
export type Tries = (tries: readonly Try[]) => Promise<readonly Tried[]>;

/** Of a worker that is not there yet: whoever waits for it waits for the next. */
const NEVER: ReturnType<Tries> = new Promise(() => {});

export interface Model {
  readonly state: State;
  readonly dispatch: Dispatch;
  /** Asks the last question once more. */
  readonly again: () => void;
  readonly tries: Tries;
}

/** The page's state, kept together with the worker that runs the model for it. */
export function useModel(beginning: Beginning): Model {
  const [state, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState(start(beginning)),
  );
  const { source, inputs, selection, learned, readings, made, locale, nowMs } = state;
  const { units } = state.preferences;
  // The selection is read when a question leaves, not watched: a change of it asks for a course alone.
  const selectionNow = useRef(selection);
  selectionNow.current = selection;
  const asker = useRef<Asker | null>(null);

  // Before the frame is painted, here and where a question leaves: the worker works while the page paints.
  useLayoutEffect(() => {
    const running = new Asker(beginning.worker, dispatch, () => selectionNow.current);
    asker.current = running;
    loadSamples(dispatch, beginning.samples, beginning.link.sampleId);
    return () => running.stop();
  }, []);

  // What is past is no longer offered: the board of weather that lies ahead moves on with the hour.
  const { nowUtc } = fromNow(source, nowMs);
  const answered = state.picture?.answer.odds !== undefined;
  const lastOf = useRef<readonly unknown[]>([]);
  const again = () => {
    const { question } = readInputs(inputs);
    if (source === null || question === null) return;
    const rate = learned[learnedKey(inputs.fieldName, inputs.crop)];
    const request = {
      ...question,
      weather: source.series,
      ...(nowUtc === undefined ? {} : { nowUtc }),
      ...(rate ? { learned: rate } : {}),
      ...cutsThatLie(made, readings, { source, inputs }, question.routes),
    };
    const of = [source, inputs, learned, readings, made, nowUtc];
    const whole = answered && of.every((part, i) => part === lastOf.current[i]);
    lastOf.current = of;
    asker.current?.ask({ source, inputs, request, speech: { units, locale }, whole });
  };
  useLayoutEffect(again, [source, inputs, learned, readings, made, locale, units, nowUtc]);

  useOdds(state, asker);

  const tries = useCallback<Tries>((wanted) => asker.current?.tries(wanted) ?? NEVER, []);
  return { state, dispatch, again, tries };
}
