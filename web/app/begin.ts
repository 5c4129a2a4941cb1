import { type ReadLink, readLink } from "../link/read-link.ts";
import { readMade } from "../made/made-cuts.ts";
import { readReadings } from "../reading/readings.ts";
import type { Action } from "../state/action.ts";
import { reduce } from "../state/reducer.ts";
import { firstState, type Sample, type State } from "../state/state.ts";
import { readPreferences } from "../theme/preferences.ts";
import { fetchSamples } from "../weather/samples.ts";
import { Asker, startWorker } from "./asker.ts";
import { takeEarlyStart } from "./early-start.ts";
import { type Asked, ask } from "./question.ts";

/** What is set going before anything is drawn: the worker and the samples come while the page is still being made. */
export interface Beginning {
  readonly asker: Asker;
  /** The state that the page opens with: with the first sample, and its question on its way, where the samples are there. */
  readonly state: State;
  /** What the first question was of; null where none has left yet. */
  readonly asked: Asked | null;
  readonly samples: Promise<readonly Sample[]>;
  /** What the address asked for when the page was opened. */
  readonly link: ReadLink;
}

/**
 * Samples and worker that come within this are waited for, ms: the worker then answers while the page is drawn for the first
 * time. A worker that is still starting gets a question only when the page has been drawn, however early it was asked.
 */
const SOON_MS = 300;

/** The samples, as soon as the worker hears what is asked of them; null where either takes long. */
async function soon(samples: Beginning["samples"], ready: Promise<void>): Promise<readonly Sample[] | null> {
  const late = new Promise<null>((resolve) => setTimeout(resolve, SOON_MS, null));
  const both = Promise.all([samples.catch(() => null), ready]).then(([there]) => there);
  return Promise.race([both, late]);
}

export async function begin(): Promise<Beginning> {
  const early = takeEarlyStart();
  const samples = fetchSamples(early?.samples);
  // Whoever waits for it is told; until then a failure is not an unhandled one.
  samples.catch(() => {});
  const worker = early === null || early.failed ? startWorker() : early.worker;
  const link = readLink(location.search, { locale: navigator.language });
  const nowMs = Date.now();
  let state = firstState({
    timeZone: "",
    locale: navigator.language,
    nowMs,
    online: navigator.onLine,
    preferences: readPreferences(navigator.language),
    inputs: link.inputs,
    ...readReadings(nowMs),
    made: readMade(nowMs),
  });
  const asker = new Asker(worker);
  // While the forecast of a link is asked for, the demonstration would only flash up before it.
  const there = link.forecast === null && early !== null ? await soon(samples, early.ready) : null;
  if (there === null) return { asker, state, asked: null, samples, link };
  const note = (action: Action) => {
    state = reduce(state, action);
  };
  asker.follow(note, () => null);
  note({ kind: "samples", samples: there, first: link.sampleId });
  const asked = ask(asker, state, null);
  return { asker, state, asked, samples, link };
}
