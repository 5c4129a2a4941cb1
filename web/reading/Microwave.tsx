import { useState } from "preact/hooks";
import { moistureTest } from "../../model/feed/moisture-test.ts";
import { type Manner, numberMarksOf, numberText } from "../format/manner.ts";
import { sentenceCase } from "../format/words.ts";
import { TextField } from "../panel/Field.tsx";
import { readNumber } from "../state/numbers.ts";

/** A microwave test led weighing by weighing: when to stop, when it chars, and its moisture into the reading. */
export function Microwave({
  manner,
  onUse,
}: {
  readonly manner: Manner;
  /** Moisture, per cent wet basis. */
  readonly onUse: (pct: number) => void;
}) {
  const [tare, setTare] = useState("");
  const [fresh, setFresh] = useState("");
  const [next, setNext] = useState("");
  const [dried, setDried] = useState<readonly number[]>([]);
  const [charred, setCharred] = useState(false);
  const grams = (text: string) => readNumber(text, numberMarksOf(manner.locale)) ?? Number.NaN;
  const ready = Number.isFinite(grams(tare)) && Number.isFinite(grams(fresh));
  const test = ready
    ? moistureTest({ tareG: grams(tare), freshG: grams(fresh), driedG: dried, charred })
    : null;
  const weighed = grams(next);
  return (
    <fieldset class="odds-fold">
      <legend>Microwave test, weighing by weighing</legend>
      <div class="odds-form">
        <TextField label="Empty dish" unit="g" value={tare} error={undefined} onText={setTare} />
        <TextField
          label="Dish with 100 g of fresh crop"
          unit="g"
          value={fresh}
          error={undefined}
          onText={setFresh}
        />
        {test && !test.newSample ? (
          <TextField
            label={test.settled ? "One turn more, only if in doubt" : `Weighing ${dried.length + 1}`}
            unit="g"
            value={next}
            error={undefined}
            onText={setNext}
          />
        ) : null}
      </div>
      {test ? (
        <>
          <p role="status" class="odds-says">
            {test.moisturePct === null ? "" : `${numberText(test.moisturePct, 1, manner)} % so far. `}
            {test.settled ? sentenceCase(test.next) : `Next: ${test.next}`}.
          </p>
          {test.warnings.map((text) => (
            <p key={text} class="odds-wrong">
              {text.endsWith("?") ? text : `${text}.`}
            </p>
          ))}
          <label class="odds-tick">
            <input type="checkbox" checked={charred} onChange={() => setCharred(!charred)} /> Brown edges or
            smoke
          </label>
          <div class="odds-buttons">
            {test.newSample ? (
              <button
                type="button"
                onClick={() => {
                  setDried([]);
                  setFresh("");
                  setCharred(false);
                }}
              >
                New sample
              </button>
            ) : (
              <button
                type="button"
                disabled={!Number.isFinite(weighed)}
                onClick={() => {
                  setDried([...dried, weighed]);
                  setNext("");
                }}
              >
                Take this weighing
              </button>
            )}
            {dried.length > 0 ? (
              <button type="button" onClick={() => setDried(dried.slice(0, -1))}>
                Take back {numberText(dried.at(-1) ?? 0, 1, manner)} g
              </button>
            ) : null}
            {test.settled && test.moisturePct !== null ? (
              <button type="button" class="primary" onClick={() => onUse(test.moisturePct ?? 0)}>
                Use this reading
              </button>
            ) : null}
          </div>
        </>
      ) : (
        <p>Weigh the empty dish, then the dish with the sample. Keep a glass of water in the oven.</p>
      )}
    </fieldset>
  );
}
