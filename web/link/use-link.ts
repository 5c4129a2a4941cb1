import { useEffect, useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { PlaceField } from "../place/place-texts.ts";
import { hasLater } from "../state/choice.ts";
import type { Preset } from "../state/preset.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { State } from "../state/state.ts";
import { type LinkState, linkOf } from "./link-of.ts";
import { BEST_SHOWN, FIRST_SHOWN } from "./link-reader.ts";
import type { ReadLink } from "./read-link.ts";
import { weatherMark } from "./weather-mark.ts";

/** The address follows the state this long after its last change: browsers count such writes, and people drag levers. */
const REST_MS = 200;

/** What of the state can be sent: fields that hold a mistake stay as they were last answered. */
export function sendable(state: State): LinkState {
  const { inputs, picture, source, selection, upload, preferences } = state;
  const sound = readInputs(inputs).question !== null;
  return {
    inputs: sound ? inputs : (picture?.inputs ?? inputs),
    source,
    selection,
    compare: comparable(state),
    place: upload.place,
    units: preferences.units,
  };
}

/** What the cut is compared with, as long as it is the cut and the levers from which that was worked out. */
function comparable({ toCompare, kept, inputs, selection }: State): Preset | null {
  if (toCompare !== null) return toCompare;
  const against = kept?.against;
  return against?.inputs === inputs && against.optionId === selection?.optionId ? against.preset : null;
}

/** Whether the chosen cut is compared with one that a link cannot ask for again. */
export function keepsAside(state: State): boolean {
  return state.kept !== null && comparable(state) === null;
}

/** What of the link is still to be put in. */
type Step = "weather" | "row" | "none";

/** True where the weather of the link can be shown, else in words why not; null while that cannot be known. */
export function weatherOfLink(
  link: ReadLink,
  {
    samples,
    source,
    samplesError,
    forecast,
  }: Pick<State, "samples" | "source" | "samplesError" | "forecast">,
  keptIsRead: boolean,
): string | true | null {
  if (link.ownMark !== null) {
    if (source?.kind === "upload" && weatherMark(source.series) === link.ownMark) return true;
    if (!keptIsRead || (samples.length === 0 && samplesError === null)) return null;
    return "The sender's weather was an own file, which a link cannot carry: upload it, or pick a sample.";
  }
  if (link.forecast !== null) {
    if (source?.kind === "forecast") return true;
    // It is asked for, and why it did not come is told where the place is.
    return forecast.failed === null
      ? null
      : "The forecast of this link could not be had: the demo's weather is shown.";
  }
  if (link.sampleId === null) return source === null ? null : true;
  if (samples.length === 0) return null;
  if (samples.some(({ id }) => id === link.sampleId)) return true;
  return `The link's weather: "${link.sampleId}" is not known. The demo's stays.`;
}

/**
 * The address holds the state. On opening, the weather, the row and the place of the link are put in as soon as the page
 * has them (its inputs are those the page starts with); after that the address follows what is shown.
 *
 * @param link the address as it was opened
 * @param keptIsRead whether it is known what the device kept: the file of the link may be there
 * @returns what of the link could not be used, in words
 */
export function useLink(
  state: State,
  dispatch: Dispatch,
  link: ReadLink,
  keptIsRead: boolean,
): readonly string[] {
  const [told, setTold] = useState<readonly string[]>(link.problems);
  const step = useRef<Step>(link.given ? "weather" : "none");
  const tell = (notice: string) => setTold((before) => [...before, notice]);

  useEffect(() => {
    for (const [field, text] of Object.entries(link.place))
      dispatch({ kind: "place", field: field as PlaceField, text });
  }, []);

  const { samples, source, picture, samplesError } = state;
  useEffect(() => {
    if (step.current === "weather") {
      const weather = weatherOfLink(link, state, keptIsRead);
      if (weather === null) return;
      if (weather !== true) tell(weather);
      else if (link.sampleId !== null && !(source?.kind === "sample" && source.id === link.sampleId))
        dispatch({ kind: "sample", id: link.sampleId });
      // A row belongs to its weather: in another it would be another row.
      const chosen = link.selection !== null || link.compare !== null;
      step.current = chosen && weather === true ? "row" : "none";
    }
    if (step.current === "row" && picture !== null && picture.source === source) {
      if (link.sampleId !== null && !(source?.kind === "sample" && source.id === link.sampleId)) return;
      const { selection, compare } = link;
      // Without a row it is the best that is compared, and the chances may put another first.
      if (selection === null && compare !== null && picture.answer.odds === undefined) return;
      step.current = "none";
      const row = picture.answer.options.find(({ id }) => id === selection?.optionId);
      if (row) dispatch({ kind: "select", selection });
      else if (selection !== null) tell(`The link's row is not on this board. ${BEST_SHOWN}`);
      const wanted = selection?.windowUtc;
      if (
        row &&
        wanted !== undefined &&
        !hasLater(
          row.routes.find(({ route }) => route === selection?.route),
          wanted,
        )
      )
        tell(`The link's window is not on its row. ${FIRST_SHOWN}`);
      if (compare !== null && (row !== undefined || selection === null))
        dispatch({ kind: "to-compare", preset: compare });
    }
  }, [samples, source, picture, samplesError, keptIsRead, state.forecast]);

  const { inputs, selection, kept, toCompare } = state;
  const { place } = state.upload;
  // What the address says does not wait for the answer: a lever's new picture changes nothing of it.
  const answered = picture !== null;
  useEffect(() => {
    if (source === null || !answered) return;
    const timer = setTimeout(() => {
      if (step.current !== "none") return;
      const { pathname, hash, search } = location;
      const next = linkOf(sendable(state));
      if (next !== search) history.replaceState(history.state, "", `${pathname}${next}${hash}`);
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [inputs, source, selection, kept, toCompare, place, answered, picture?.source]);

  return told;
}
