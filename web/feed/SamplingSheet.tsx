import { useState } from "preact/hooks";
import { SAMPLE_KINDS, type SampleKind, samplingPlan } from "../../model/feed/index.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { readNumber } from "../state/numbers.ts";

const KIND_WORDS: Readonly<Record<SampleKind, string>> = {
  bales: "bales of hay or wrapped",
  standing: "the standing crop",
  silage: "chopped feed in a store",
};

const wholeOf = (text: string, most: number) => {
  const value = readNumber(text);
  return value !== null && value >= 0 && value <= most ? Math.round(value) : null;
};

/** How to sample, from the user's counts: a sheet to print and take along. */
export function SamplingSheet() {
  const [kind, setKind] = useState<SampleKind>("bales");
  const [bales, setBales] = useState("60");
  const [tonnes, setTonnes] = useState("30");
  const [parts, setParts] = useState("1");
  const [b, t, p] = [wholeOf(bales, 100_000), wholeOf(tonnes, 100_000), wholeOf(parts, 200)];
  const wrong = (value: number | null, text: string, most: number) =>
    value === null ? `Got "${text}", must be a number from 0 to ${most}.` : undefined;
  const plan = samplingPlan({ kind, bales: b ?? 0, tonnes: t ?? 0, parts: p ?? 1 });
  const each = [
    plan.bales === null ? null : `${plan.bales} bales`,
    plan.cores === null ? null : `${plan.cores} cores`,
    plan.places === null ? null : `${plan.places} places`,
  ].filter((words) => words !== null);
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
            onChoice={setKind}
          />
          {kind === "bales" ? (
            <div class="pair">
              <TextField label="Bales" value={bales} error={wrong(b, bales, 100_000)} onText={setBales} />
              <TextField
                label="Together"
                unit="t"
                value={tonnes}
                error={wrong(t, tonnes, 100_000)}
                onText={setTonnes}
              />
            </div>
          ) : null}
          <TextField
            label="Fields, cuttings or conditions"
            hint="each is a lot of its own"
            value={parts}
            error={wrong(p, parts, 200)}
            onText={setParts}
          />
        </fieldset>
        <div>
          <p class="feed-share">
            {plan.lots} {plan.lots === 1 ? "lot" : "lots"}, {each.join(", ")} of each.
          </p>
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
