import { WHO_DECIDES } from "../cautions/cautions.ts";
import { useOpenWithRoom } from "../fold/use-room.ts";
import { unitsKept } from "../format/words.ts";
import { Chips } from "./Chips.tsx";
import { firstSentence, type Told } from "./told.ts";

/** Under the board: the reason, what the answer rests on, and what else the line of the head has no room for. */
export function AnswerMore({ told }: { readonly told: Told }) {
  const { line, more, chips } = told;
  const [, rest] = firstSentence(line);
  const [open, setOpen] = useOpenWithRoom();
  return (
    <details class="answer-more" open={open} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>More on this answer</summary>
      <h2 class="more-head">More on this answer</h2>
      {rest === "" ? null : <p class="without-room">{unitsKept(rest)}</p>}
      {more.map((each) => (
        <p key={each}>{unitsKept(each)}</p>
      ))}
      <p class="who">{WHO_DECIDES}</p>
      <Chips chips={chips.filter(({ caution }) => !caution)} label="About this answer" />
    </details>
  );
}
