import { unitsKept } from "../format/words.ts";
import type { Action } from "../state/action.ts";
import type { Picture, State } from "../state/state.ts";
import { withoutMade } from "./made-cuts.ts";
import "./made.css";

/** What readings changed on the board, and cuts that were made and cannot be followed in this weather. */
export function BoardNotes({
  picture,
  made,
  dispatch,
}: {
  readonly picture: Picture;
  readonly made: State["made"];
  readonly dispatch: (action: Action) => void;
}) {
  const { readings, madeLeftOut = [], warnings, warningCodes } = picture.answer;
  const unused = warnings.filter((_, i) => warningCodes[i] === "readings-unused");
  if (readings === undefined && madeLeftOut.length === 0 && unused.length === 0) return null;
  return (
    <div class="board-notes">
      {readings === undefined ? null : (
        <p class="readings-change" role="status">
          {unitsKept(readings.text)}
        </p>
      )}
      {unused.map((text) => (
        <p key={text} class="made-left-out" role="status">
          {unitsKept(text)}
        </p>
      ))}
      {madeLeftOut.map(({ cutUtc, text }) => (
        <p key={cutUtc} class="made-left-out" role="alert">
          {unitsKept(text)}{" "}
          <button
            type="button"
            onClick={() => dispatch({ kind: "made", made: withoutMade(made, picture, cutUtc) })}
          >
            Not made
          </button>
        </p>
      ))}
    </div>
  );
}
