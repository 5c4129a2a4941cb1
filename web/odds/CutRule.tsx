import { useMemo } from "preact/hooks";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { NO_RULE_TEXT, WRONG_COSTS_TEXT } from "../../model/odds/cost-loss.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { dayClockText } from "../format/farm-time.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps } from "../panel/panel-props.ts";
import { readInputs } from "../state/read-inputs.ts";
import { costsAreWrong } from "./costs-are-wrong.ts";
import "./odds.css";

/** Why no rule stands there. */
function noRuleText(wrong: boolean, waitCost: string, answer: WindowsAnswer | undefined): string {
  if (wrong) return WRONG_COSTS_TEXT;
  if (waitCost.trim() === "")
    return "Say what a day of waiting costs, and the chance at which cutting pays is told.";
  if (answer?.odds === undefined) return "The chances are being worked out.";
  return answer.odds.first === null
    ? "None of the routes brings anything in within this weather."
    : NO_RULE_TEXT;
}

/** From which chance on cutting pays, by what waiting and rained-on feed cost: kept by the device and in the link. */
export function CutRule({ state, picture, manner, dispatch }: FoldsProps) {
  const { inputs } = state;
  const read = useMemo(() => readInputs(inputs, manner), [inputs, manner]);
  const props = { inputs, read, dispatch, manner };
  const { answer } = picture ?? {};
  const wrong = costsAreWrong(read.errors);
  // What an earlier entry said does not stand beside one that cannot be used.
  const rules = wrong ? [] : (answer?.odds?.cutRules ?? []);
  const cutOf = (id: string) => answer?.options.find((option) => option.id === id)?.cutUtc ?? null;
  return (
    <div class="odds-fold">
      {rules.map(({ route, optionId, text }) => {
        const cutUtc = cutOf(optionId);
        return (
          <p key={route} class="odds-says">
            {sentenceCase(ROUTE_LABELS[route])}
            {cutUtc === null ? "" : `, cut ${dayClockText(cutUtc, manner)}`}: {text}
          </p>
        );
      })}
      {rules.length > 0 ? null : (
        <p class="odds-says">{noRuleText(wrong, inputs.texts.waitCost.text, answer)}</p>
      )}
      <div class="odds-form">
        <TextField label="A day of waiting costs" {...fieldProps(props, "waitCost")} />
        <TextField
          label="A cut that is rained on, or never comes in, costs"
          {...fieldProps(props, "rainedCost", "empty = worked out from the prices")}
        />
      </div>
      <p>
        Cut where the chance is above 1 less the cost of waiting divided by the cost of rained-on feed (40 and
        200: above 80 %): on average of many cuts that costs least, if the chances are right.
      </p>
    </div>
  );
}
