import { CONDITIONINGS, SOIL_CLASSES } from "../../model/drying/index.ts";
import type { Conditioning } from "../../model/drying/keys.ts";
import type { Dispatch } from "../app/use-model.ts";
import { sentenceCase } from "../format/words.ts";
import { FIELD_LIMITS } from "../state/field-limits.ts";
import type { Inputs, RakeChoice, TedChoice, TextField as TextKey } from "../state/inputs.ts";
import type { ReadInputs } from "../state/read-inputs.ts";
import { shownText } from "../state/typed.ts";
import { Lever, rangeHint, SelectField, TextField } from "./Field.tsx";

const TED: readonly (readonly [TedChoice, string])[] = [
  ["usual", "usual"],
  ["none", "none"],
  ["morning-after", "morning after"],
  ["after-cut", "same day"],
];
const RAKE: readonly (readonly [RakeChoice, string])[] = [
  ["usual", "usual"],
  ["none", "none"],
  ["before-window", "before the baler"],
];

const CONDITIONING_LABELS: Readonly<Record<Conditioning, string>> = {
  none: "None",
  roll: "Rollers",
  impeller: "Impeller",
  intensive: "Intensive",
};

export interface PanelProps {
  readonly inputs: Inputs;
  readonly read: ReadInputs;
  readonly dispatch: Dispatch;
}

/** What can still be changed once the day is chosen: each change redraws board and course. */
export function Levers({ inputs, read, dispatch }: PanelProps) {
  const text = (field: TextKey) => ({
    value: shownText(field, inputs.texts[field], "metric"),
    error: read.errors[field],
    onText: (typed: string) => dispatch({ kind: "text", field, text: typed }),
  });
  const covered = read.coveredFraction;
  return (
    <section class="levers" aria-label="Change and see">
      <h2>Change and see</h2>
      <TextField
        label="Moisture at cutting"
        unit="%"
        hint={`${rangeHint(FIELD_LIMITS.moisturePct)}; measure it`}
        {...text("moisturePct")}
      />
      <div class="pair">
        <TextField label="Mower cut" unit="m" {...text("mowerCutM")} />
        <TextField label="Swath width" unit="m" {...text("swathWidthM")} />
      </div>
      <p class="covered" aria-live="polite">
        {covered === null
          ? "Covered share: not known"
          : `The swath covers ${Math.round(covered * 100)} % of the cut.`}
      </p>
      <SelectField
        label="Conditioning"
        value={inputs.conditioning}
        choices={CONDITIONINGS.map((key) => [key, CONDITIONING_LABELS[key]] as const)}
        onChoice={(conditioning) => dispatch({ kind: "choice", choice: { conditioning } })}
      />
      <Lever
        label="Ted"
        value={inputs.ted}
        choices={TED}
        onChoice={(ted) => dispatch({ kind: "choice", choice: { ted } })}
      />
      <Lever
        label="Rake"
        value={inputs.rake}
        choices={RAKE}
        onChoice={(rake) => dispatch({ kind: "choice", choice: { rake } })}
      />
      <Lever
        label="Ground under the swath"
        value={inputs.soil}
        choices={SOIL_CLASSES.map((key) => [key, sentenceCase(key)] as const)}
        onChoice={(soil) => dispatch({ kind: "choice", choice: { soil } })}
      />
      <p class="hint">
        "Usual" teds and rakes dry hay as the crop commonly gets it. A pass set by hand holds for every route.
      </p>
    </section>
  );
}
