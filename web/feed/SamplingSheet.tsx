import { SAMPLE_KINDS, type SampleKind, type SamplingPlan, samplingPlan } from "../../model/feed/index.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { readNumber } from "../state/numbers.ts";
import type { SamplingInputs } from "./feed-inputs.ts";

const KIND_WORDS: Readonly<Record<SampleKind, string>> = {
  bales: "bales of hay or wrapped",
  standing: "the standing crop",
  silage: "chopped feed in a store",
};

const wholeOf = (text: string, most: number) => {
  const value = readNumber(text);
  return value !== null && value >= 0 && value <= most ? Math.round(value) : null;
};

const MOST = { bales: 100_000, tonnes: 100_000, parts: 200 } as const;

/** The plan of what is typed; what is no number counts as not said. */
export function planOf({ kind, bales, tonnes, parts }: SamplingInputs): SamplingPlan {
  return samplingPlan({
    kind,
    bales: wholeOf(bales, MOST.bales) ?? 0,
    tonnes: wholeOf(tonnes, MOST.tonnes) ?? 0,
    parts: wholeOf(parts, MOST.parts) ?? 1,
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
  onInputs,
}: {
  readonly inputs: SamplingInputs;
  readonly onInputs: (inputs: SamplingInputs) => void;
}) {
  const { kind, bales, tonnes, parts } = inputs;
  const set = (change: Partial<SamplingInputs>) => onInputs({ ...inputs, ...change });
  const wrong = (key: keyof typeof MOST) =>
    wholeOf(inputs[key], MOST[key]) === null
      ? `Got "${inputs[key]}", must be a number from 0 to ${MOST[key]}.`
      : undefined;
  const plan = planOf(inputs);
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
                error={wrong("bales")}
                onText={(text) => set({ bales: text })}
              />
              <TextField
                label="Together"
                unit="t"
                value={tonnes}
                error={wrong("tonnes")}
                onText={(text) => set({ tonnes: text })}
              />
            </div>
          ) : null}
          <TextField
            label="Fields, cuttings or conditions"
            hint="each is a lot of its own"
            value={parts}
            error={wrong("parts")}
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
