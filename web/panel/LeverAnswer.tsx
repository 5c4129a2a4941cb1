import { useRef } from "preact/hooks";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import type { Choice } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import { leverAnswer, leverChange } from "./lever-answer.ts";
import "./lever-answer.css";

/**
 * Where the board is out of sight: the chosen row's answer in a line that stays in view with the levers, and what the last
 * lever did to it. Announced by the answer itself, so it is no live region of its own.
 */
export function LeverAnswer({
  choice,
  inputs,
  manner,
}: {
  readonly choice: Choice;
  /** What the answer was worked out from: another one is a lever that was moved. */
  readonly inputs: Inputs;
  readonly manner: Manner;
}) {
  const seen = useRef({ inputs, choice, before: null as Choice | null });
  const { current: last } = seen;
  if (last.inputs !== inputs) seen.current = { inputs, choice, before: last.choice };
  else if (last.choice.option.id !== choice.option.id) seen.current = { inputs, choice, before: null };
  else seen.current = { ...last, choice };
  const change = leverChange(seen.current.before, choice, manner);
  return (
    <p class="lever-answer">
      <span>{unitsKept(leverAnswer(choice, manner))}</span>
      {change === "" ? null : <strong>{unitsKept(change)}</strong>}
    </p>
  );
}
