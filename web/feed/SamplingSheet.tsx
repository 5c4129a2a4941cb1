import {
  SAMPLE_KINDS,
  SAMPLING_LIMITS,
  type SampleKind,
  type SamplingPlan,
  samplingPlan,
} from "../../model/feed/index.ts";
import { type Manner, numberMarksOf } from "../format/manner.ts";
import { fromPage, toPage, unitName } from "../format/units.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { limitOnPage } from "../state/field-limits.ts";
import { editableText, readLimited, readNumber } from "../state/numbers.ts";
import type { SamplingInputs } from "./feed-inputs.ts";

const KIND_WORDS: Readonly<Record<SampleKind, string>> = {
  bales: "bales of hay or wrapped",
  standing: "the standing crop",
  silage: "chopped feed in a store",
};

type Speech = Pick<Manner, "units" | "locale">;

/** The weight as it was typed, in the units of the page. */
function weightText({ tonnes, units: typedIn }: SamplingInputs, { units, locale }: Speech): string {
  const value = readNumber(tonnes, numberMarksOf(locale));
  if (typedIn === units || value === null) return tonnes;
  return editableText(toPage(fromPage(value, "tonnes", typedIn), "tonnes", units), 1, locale);
}

/** What is typed, read: each number with what is wrong with it. */
function readSampling(inputs: SamplingInputs, speech: Speech) {
  const { units, locale } = speech;
  const weightLimit = limitOnPage(SAMPLING_LIMITS.tonnes, "tonnes", units);
  return {
    bales: readLimited(inputs.bales, SAMPLING_LIMITS.bales, locale, true),
    weight: readLimited(weightText(inputs, speech), weightLimit, locale),
    parts: readLimited(inputs.parts, SAMPLING_LIMITS.parts, locale, true),
  };
}

/** The plan of what is typed; what is no number counts as not said. */
export function planOf(inputs: SamplingInputs, speech: Speech): SamplingPlan {
  const { bales, weight, parts } = readSampling(inputs, speech);
  return samplingPlan({
    kind: inputs.kind,
    bales: bales.value ?? 0,
    tonnes: fromPage(weight.value ?? 0, "tonnes", speech.units),
    parts: parts.value ?? 1,
  });
}

/** "1 lot, 24 bales, 24 cores of each." */
export function planSentence(plan: SamplingPlan): string {
  const each = [
    plan.bales === null ? null : `${plan.bales} bales`,
    plan.cores === null ? null : `${plan.cores} cores`,
    plan.places === null ? null : `${plan.places} places`,
  ].filter((words) => words !== null);
  return `${plan.lots} ${plan.lots === 1 ? "lot" : "lots"}, ${each.join(", ")} of each.`;
}

/** How to sample, from the user's counts: a sheet to print and take along. */
export function SamplingSheet({
  inputs,
  manner,
  onInputs,
}: {
  readonly inputs: SamplingInputs;
  readonly manner: Manner;
  readonly onInputs: (inputs: SamplingInputs) => void;
}) {
  const { kind, bales, parts } = inputs;
  const { units } = manner;
  const set = (change: Partial<SamplingInputs>) => onInputs({ ...inputs, ...change });
  const read = readSampling(inputs, manner);
  const plan = planOf(inputs, manner);
  return (
    <section class="sampling" aria-label="Sampling plan">
      <h3>How to sample</h3>
      <div class="feed-form">
        <fieldset class="feed-fields">
          <legend>What is sampled</legend>
          <SelectField
            label="Sample"
            value={kind}
            choices={SAMPLE_KINDS.map((key) => [key, KIND_WORDS[key]] as const)}
            onChoice={(next) => set({ kind: next })}
          />
          {kind === "bales" ? (
            <div class="pair">
              <TextField
                label="Bales"
                value={bales}
                error={read.bales.error}
                onText={(text) => set({ bales: text })}
              />
              <TextField
                label="Together"
                unit={unitName("tonnes", units)}
                value={weightText(inputs, manner)}
                error={read.weight.error}
                onText={(text) => set({ tonnes: text, units })}
              />
            </div>
          ) : null}
          <TextField
            label="Fields, cuttings or conditions"
            hint="each is a lot of its own"
            value={parts}
            error={read.parts.error}
            onText={(text) => set({ parts: text })}
          />
        </fieldset>
        <div>
          <p class="feed-share">{planSentence(plan)}</p>
          <ol>
            {plan.steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </div>
      </div>
    </section>
  );
}
