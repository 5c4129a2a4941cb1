import { HowWorked } from "../answer/HowWorked.tsx";
import { PrintSheet, type PrintSheetProps } from "../print/PrintSheet.tsx";
import { PrintTables } from "../print/PrintTables.tsx";
import { Gate } from "../routes/Gate.tsx";
import type { Choice } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import type { Dispatch } from "./use-model.ts";

export interface FootProps extends PrintSheetProps {
  /** What the fields say now. */
  readonly inputs: Inputs;
  /** The row that is looked at. */
  readonly choice: Choice | null;
  readonly dispatch: Dispatch;
}

/** Under the course: what to settle before cutting, the sheet that is only printed, and how the answer was worked out. */
export function Foot({ inputs, choice, dispatch, ...props }: FootProps) {
  return (
    <>
      <Gate {...props} inputs={inputs} dispatch={dispatch} />
      <PrintSheet {...props} />
      <HowWorked picture={props.picture} />
      <PrintTables {...props} choice={choice} />
    </>
  );
}
