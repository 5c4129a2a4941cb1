import { useMemo } from "preact/hooks";
import type { FoldsProps } from "../app/Folds.tsx";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps } from "../panel/panel-props.ts";
import { readInputs } from "../state/read-inputs.ts";
import "./odds.css";

/** From which chance on cutting pays, by what waiting and rained-on feed cost: kept by the device and in the link. */
export function CutRule({ state, picture, manner, dispatch }: FoldsProps) {
  const { inputs } = state;
  const read = useMemo(() => readInputs(inputs, manner), [inputs, manner]);
  const props = { inputs, read, dispatch, manner };
  const rules = picture?.answer.odds?.cutRules ?? [];
  const said = inputs.texts.waitCost.text.trim() !== "";
  return (
    <div class="odds-fold">
      {rules.map(({ route, text }) => (
        <p key={route} class="odds-says">
          {sentenceCase(ROUTE_LABELS[route])}: {text}
        </p>
      ))}
      {rules.length > 0 ? null : (
        <p class="odds-says">
          {said
            ? "The chances are being worked out, or none of the routes brings anything in."
            : "Say what a day of waiting costs, and the chance at which cutting pays is told."}
        </p>
      )}
      <div class="odds-form">
        <TextField label="A day of waiting costs" {...fieldProps(props, "waitCost")} />
        <TextField
          label="A cut that is rained on costs"
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
