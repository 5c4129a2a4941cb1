import { useState } from "preact/hooks";
import { moistureTest, SCALE_STEP_G } from "../../model/feed/moisture-test.ts";
import type { Limit } from "../../model/limits.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { sentenceCase } from "../format/words.ts";
import { TextField } from "../panel/Field.tsx";
import { type LimitedRead, readLimited } from "../state/numbers.ts";

/** What a kitchen scale weighs, g. */
const WEIGHT: Limit = { min: 0, max: 5000, unit: "g" };

/** A microwave test led weighing by weighing: when to stop, when it chars, and its moisture into the reading. */
export function Microwave({
  manner,
  onUse,
}: {
  readonly manner: Manner;
  /** Moisture, per cent wet basis, and what the scale's step is worth of it, points. */
  readonly onUse: (pct: number, scalePoints: number) => void;
}) {
  const [tare, setTare] = useState("");
  const [fresh, setFresh] = useState("");
  const [next, setNext] = useState("");
  const [dried, setDried] = useState<readonly number[]>([]);
  const [charred, setCharred] = useState(false);
  const read = (text: string, limit = WEIGHT): LimitedRead =>
    text.trim() === "" ? { value: null } : readLimited(text, limit, manner.locale);
  const grams = (text: string) => read(text).value ?? Number.NaN;
  const [tareG, freshG] = [grams(tare), grams(fresh)];
  const ready = Number.isFinite(tareG) && Number.isFinite(freshG);
  // With the dish, and no heavier than fresh: dish and sample only get lighter.
  const turn = read(next, ready ? { ...WEIGHT, min: tareG, max: freshG + SCALE_STEP_G } : WEIGHT);
  const test = ready ? moistureTest({ tareG, freshG, driedG: dried, charred }) : null;
  const weighed = turn.value;
  return (
    <fieldset class="odds-fold">
      <legend>Microwave test, weighing by weighing</legend>
      <div class="odds-form">
        <TextField label="Empty dish" unit="g" value={tare} error={read(tare).error} onText={setTare} />
        <TextField
          label="Dish with 100 g of fresh crop"
          unit="g"
          value={fresh}
          error={read(fresh).error}
          onText={setFresh}
        />
        {test && !test.newSample ? (
          <TextField
            label={test.settled ? "One turn more, only if in doubt" : `Weighing ${dried.length + 1}`}
            unit="g"
            value={next}
            error={turn.error}
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
          {test.scalePoints > 0 ? (
            <p>
              A step of {numberText(SCALE_STEP_G, 0, manner)} g of the scale is{" "}
              {numberText(test.scalePoints, 1, manner)} {test.scalePoints === 1 ? "point" : "points"} of this
              sample: it goes into the reading's error.
            </p>
          ) : null}
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
                disabled={weighed === null}
                onClick={() => {
                  if (weighed !== null) setDried([...dried, weighed]);
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
              <button
                type="button"
                class="primary"
                onClick={() => onUse(test.moisturePct ?? 0, test.scalePoints)}
              >
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
