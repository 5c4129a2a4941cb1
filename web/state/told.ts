import type { Issue } from "../../model/limits.ts";
import type { WeatherSource } from "../weather/source.ts";
import type { Tell, TellOdds } from "../worker/messages.ts";
import type { Picture, State } from "./state.ts";

/** A file that gives no board is not used: the weather of the board stays, and the reason stands by the file. */
function refused(state: State, source: WeatherSource, issues: readonly Issue[]): State {
  const { picture, upload } = state;
  if (picture === null || source === picture.source || source.kind !== "upload")
    return { ...state, refused: issues };
  const why = issues.map(({ message }) => message).join("; ");
  const file = `${source.name} cannot be used: ${why}. The board keeps the weather it had.`;
  return {
    ...state,
    source: picture.source,
    upload: { ...upload, errors: { ...upload.errors, file }, problems: [], problemsOf: null },
  };
}

/** What the worker tells. Whatever does not belong to the newest question is dropped. */
export function told(state: State, tell: Tell | TellOdds): State {
  const { asked, picture } = state;
  switch (tell.kind) {
    case "board": {
      if (asked?.id !== tell.id) return state;
      const next: Picture = {
        id: tell.id,
        source: asked.source,
        inputs: asked.inputs,
        request: tell.request,
        answer: tell.answer,
        course: tell.course,
        ribbons: tell.ribbons,
        ...(tell.bestBefore === undefined ? {} : { bestBefore: tell.bestBefore }),
      };
      const kept = tell.answer.options.some(({ id }) => id === state.selection?.optionId);
      const selection = kept ? state.selection : null;
      return { ...state, asked: null, picture: next, odds: null, selection, refused: [] };
    }
    case "refused":
      return asked?.id === tell.id ? refused({ ...state, asked: null }, asked.source, tell.issues) : state;
    case "tries":
      return state;
    case "odds-progress":
      return picture?.id === tell.id
        ? { ...state, odds: { id: tell.id, done: tell.done, of: tell.of } }
        : state;
    case "odds":
      // A board that was left meanwhile has its odds no more.
      return picture?.id === tell.id
        ? {
            ...state,
            odds: null,
            picture: {
              ...picture,
              answer: tell.answer,
              bestBefore: picture.bestBefore ?? picture.answer.best.overall,
              ribbons: { ...picture.ribbons, ...tell.ribbons },
            },
          }
        : state;
    case "odds-course":
    case "course":
      return picture?.id === tell.id ? { ...state, picture: { ...picture, course: tell.course } } : state;
  }
}
