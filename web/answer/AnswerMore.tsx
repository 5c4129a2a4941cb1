import { WHO_DECIDES } from "../cautions/cautions.ts";
import { useOpenWithRoom } from "../fold/use-room.ts";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import type { Picture, State } from "../state/state.ts";
import type { PageState } from "../states/state-chips.ts";
import { Chips } from "./Chips.tsx";
import { toldOf } from "./told.ts";

/** Under the board: the next best cut and what would turn the choice, the reason, and what the answer rests on. */
export function AnswerMore({
  picture,
  selection,
  manner,
  now,
}: {
  readonly picture: Picture;
  readonly manner: Manner;
  readonly selection: State["selection"];
  readonly now: PageState;
}) {
  const { odds } = picture.answer;
  const { sentence, other, past, expired, changed, equal, choice, chips } = toldOf(
    picture,
    selection,
    manner,
    now,
  );
  const [open, setOpen] = useOpenWithRoom();
  const next = odds ? choice : other ? "" : sentence.runnerUp;
  const lines = expired ? [] : [next, changed, sentence.why, sentence.opinions];
  // The head has room for one of these, where no rule of the costs and no way back to the best stands in its place.
  const ruled = !past && (odds?.cutRules.length ?? 0) > 0;
  const above = other || ruled ? "" : changed || equal || sentence.why;
  const said = [...lines, odds?.text ?? ""].filter((line) => line !== "" && line !== above);
  return (
    <details class="answer-more" open={open} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>Next best cut, and more on this answer</summary>
      <h2 class="more-head">More on this answer</h2>
      {said.map((line) => (
        <p key={line}>{unitsKept(line)}</p>
      ))}
      <p class="who">{WHO_DECIDES}</p>
      <Chips chips={chips.filter(({ caution }) => !caution)} label="About this answer" />
    </details>
  );
}
