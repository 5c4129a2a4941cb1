import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { BestChangeLine } from "../panel/BestChangeLine.tsx";
import { cutHoursOfDay } from "../panel/cut-hours.ts";
import { LeverAnswer } from "../panel/LeverAnswer.tsx";
import { Levers, type LeversProps } from "../panel/Levers.tsx";
import { boardNowUtc } from "../state/board-from.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { useBestChange } from "./use-best-change.ts";
import type { Tries } from "./use-model.ts";

export interface LeversOfRowProps extends Omit<LeversProps, "cutHour" | "children" | "effects"> {
  readonly manner: Manner;
  readonly picture: Picture | null;
  readonly choice: Choice | null;
  readonly tries: Tries;
}

/** The levers with what belongs to the chosen row: the hours of its day, and the change that would help it most. */
export function LeversOfRow({ picture, choice, tries, ...props }: LeversOfRowProps) {
  const { manner, dispatch } = props;
  const best = useBestChange(picture, choice, manner, tries);
  const route = choice?.route?.route ?? null;
  const nowUtc = picture && boardNowUtc(picture);
  const hours =
    picture &&
    choice &&
    cutHoursOfDay(
      picture.answer,
      choice.option,
      manner,
      picture.request.cutHours,
      nowUtc ? utcMs(nowUtc) : undefined,
    );
  const cutHour = hours && {
    ...hours,
    onChoice: (optionId: string) => dispatch({ kind: "select", selection: { optionId, route } }),
  };
  return (
    <Levers {...props} cutHour={cutHour}>
      <BestChangeLine best={best} dispatch={dispatch} />
      {picture && choice && <LeverAnswer choice={choice} inputs={picture.inputs} manner={manner} />}
    </Levers>
  );
}
