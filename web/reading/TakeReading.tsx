import { useState } from "preact/hooks";
import type { ReadingMethod } from "../../model/drying/request.ts";
import { PLACES, READING_METHODS, SQUEEZE_RANGES, sdOfReading } from "../../model/odds/reading-methods.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { changesAhead } from "../course/reading-marks.ts";
import { dayClockText, utcMs } from "../format/farm-time.ts";
import { numberText } from "../format/manner.ts";
import { withMade } from "../made/made-cuts.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { editableText } from "../state/numbers.ts";
import { Microwave } from "./Microwave.tsx";
import { dropMet } from "./met.ts";
import { rateNow } from "./rate-now.ts";
import {
  addedOf,
  type ReadingErrors,
  type ReadingTexts,
  readReading,
  TAKEN_TEXT,
  takenAlready,
  timeField,
} from "./read-reading.ts";
import {
  keepLearned,
  learnedKey,
  type Reading,
  rateBefore,
  rateBeside,
  rateKey,
  readingsHere,
  readingsOf,
  weatherKey,
  withoutReading,
} from "./readings.ts";
import { TakenList } from "./TakenList.tsx";
import "../odds/odds.css";

const METHODS = Object.keys(READING_METHODS) as ReadingMethod[];
const METHOD_CHOICES = METHODS.map((key) => [key, READING_METHODS[key].label] as const);
const SQUEEZE_CHOICES = SQUEEZE_RANGES.map(({ says }, i) => [String(i), says] as const);

/** What this device taught the book of a field leaves it too. */
function forgetInBook(key: string): void {
  void import("../book/part.ts").then(({ dropLearnedRates }) => dropLearnedRates(key)).catch(() => {});
}

/** A moisture measured on the chosen cut: the course bends to it, its bands narrow, and the change is said. */
export function TakeReading({ state, picture, choice, manner, dispatch }: FoldsProps) {
  const { readings, nowMs } = state;
  const cutUtc = choice?.option.courseCutUtc ?? null;
  const fromMs = utcMs(cutUtc ?? 0);
  const toMs = picture ? utcMs(picture.answer.usableUntilUtc) : 0;
  const [texts, setTexts] = useState<Omit<ReadingTexts, "time"> & { readonly time: string | null }>({
    method: "microwave",
    value: "",
    squeeze: 3,
    time: null,
    place: "",
  });
  const [errors, setErrors] = useState<ReadingErrors>({});
  const inputs = picture?.inputs ?? state.inputs;
  const shown = picture?.course?.optionId === choice?.option.id ? picture?.course?.course : undefined;
  const told = shown?.odds?.readings ?? null;
  const taught = told?.learned ?? null;
  if (!picture || !choice || cutUtc === null)
    return <p>Choose a cut that lies in a swath: a reading is taken of it.</p>;
  const { option, route } = choice;
  // Invented weather has no now of its own: there any hour can be tried.
  const clockMs = picture.source.kind === "sample" ? null : nowMs;
  const key = rateKey(picture);
  const rate = rateBeside(state, picture);
  const here = readingsHere(readings, picture);
  const mine = readingsOf(readings, picture, option.id);
  const aside = here.filter((one) => !picture.answer.options.some(({ id }) => id === one.optionId));
  // Now, where the swath lies now; of invented weather a day after the cut.
  const usualMs = nowMs >= fromMs && nowMs <= toMs ? nowMs : Math.min(toMs, fromMs + 24 * HOUR_MS);
  const time = texts.time ?? timeField(usualMs, manner.zone);
  const change = (part: Partial<ReadingTexts>) => setTexts({ ...texts, ...part });
  const take = () => {
    const read = readReading({ ...texts, time }, { fromMs, toMs, nowMs: clockMs }, manner);
    const again = read.request !== null && takenAlready(mine, read.request, texts.place);
    setErrors(again ? { place: TAKEN_TEXT } : read.errors);
    if (read.request === null || again) return;
    const reading: Reading = {
      optionId: option.id,
      weather: weatherKey(picture.source),
      field: learnedKey(inputs.fieldName, inputs.crop),
      route: route?.route ?? null,
      request: read.request,
      place: texts.place.trim(),
      keptMs: nowMs,
      before: rateBefore(state, picture, option.id, picture.answer.readings?.learned ?? null),
    };
    dispatch({ kind: "select", selection: { optionId: option.id, route: route?.route ?? null } });
    // What was measured lies: its row stays.
    if (clockMs !== null && option.cutUtc !== null && !option.made)
      dispatch({ kind: "made", made: withMade(state.made, picture, option.cutUtc, nowMs) });
    dispatch({ kind: "readings", readings: [...readings, reading] });
  };
  const undo = (reading: Reading) => {
    dropMet(reading);
    // What it taught goes with it; what earlier ones taught comes back.
    dispatch({ kind: "learned", learned: keepLearned(key, rate) });
    if (clockMs !== null) forgetInBook(key);
    dispatch({ kind: "readings", readings: withoutReading(readings, reading, rate) });
  };
  // Whoever took it stands by it: it counts, odd as it is.
  const confirm = (reading: Reading) => {
    const sure: Reading = { ...reading, request: { ...reading.request, confirmed: true } };
    dispatch({ kind: "readings", readings: readings.map((one) => (one === reading ? sure : one)) });
  };
  const isQuestioned = ({ request: { atUtc, method, confirmed } }: Reading) =>
    confirmed !== true &&
    told?.readings.some((one) => !one.used && one.atUtc === atUtc && one.method === method) === true;
  const { lean, sdWb } = READING_METHODS[texts.method];
  const addedSdWb = addedOf(texts.scalePoints ?? 0);
  const points = (wb: number) => numberText(wb * 100, 1, manner);
  const standing = here.length > 0;
  const listed = { fieldName: inputs.fieldName, manner, onUndo: undo };
  const inForce = rate === null ? null : rateNow(rate, inputs.crop, cutUtc);
  return (
    <div class="odds-fold">
      <p>
        Of the cut {dayClockText(option.cutUtc ?? cutUtc, manner)}
        {option.made ? ", which lies" : ""}.
      </p>
      {clockMs !== null && fromMs > clockMs ? (
        <p class="odds-wrong">
          This cut lies ahead: a reading of it can be taken once its swath lies. Cut already? Say "This cut is
          made" above its course.
        </p>
      ) : null}
      {told ? (
        <div role="status" class="odds-told">
          {told.readings.map(({ used, text, atUtc }, i) => (
            <p key={`${i} ${atUtc}`} class={used ? "odds-says" : "odds-wrong"}>
              {dayClockText(atUtc, manner)}. {text}
            </p>
          ))}
          {changesAhead(told, fromMs, manner).map(({ targetWb, text }) => (
            <p key={targetWb}>{text}</p>
          ))}
          {told.fewAgree === null ? null : <p class="odds-wrong">{told.fewAgree}</p>}
          {told.readings.some(({ used }) => used) ? (
            <p>
              Effective sample size: {numberText(told.effectiveSize, 0, manner)} of {told.of} drawn courses
              {told.collapsed ? "; the bands are those of the courses that agree" : ""}.
            </p>
          ) : null}
        </div>
      ) : null}
      <TakenList readings={mine} isQuestioned={isQuestioned} onConfirm={confirm} {...listed} />
      {aside.length > 0 ? (
        <>
          <p>Of cuts that have no row on this board. They count for the others all the same:</p>
          <TakenList readings={aside} {...listed} />
        </>
      ) : null}
      <div class="odds-form">
        <SelectField
          label="Measured by"
          value={texts.method}
          choices={METHOD_CHOICES}
          onChoice={(method) => change({ method, scalePoints: undefined })}
        />
        {texts.method === "hand-squeeze" ? (
          <SelectField
            label="Squeezed for half a minute"
            value={String(texts.squeeze)}
            choices={SQUEEZE_CHOICES}
            onChoice={(squeeze) => change({ squeeze: Number(squeeze) })}
          />
        ) : (
          <TextField
            label="Moisture, wet basis"
            unit="%"
            value={texts.value}
            error={errors.value}
            onText={(value) => change({ value, scalePoints: undefined })}
          />
        )}
        <div class={errors.time ? "field wrong" : "field"}>
          <label for="reading-time">Taken, the farm's time</label>
          <input
            id="reading-time"
            type="datetime-local"
            value={time}
            aria-invalid={errors.time !== undefined}
            onInput={({ currentTarget }) => change({ time: currentTarget.value })}
          />
        </div>
        <TextField
          label="Place in the field"
          numeric={false}
          error={errors.place}
          value={texts.place}
          onText={(place) => change({ place })}
        />
      </div>
      {errors.time ? (
        <p role="alert" class="odds-wrong">
          {errors.time}
        </p>
      ) : null}
      <p>
        Within {points(sdOfReading({ method: texts.method, addedSdWb }))} points of the field's mean, two
        times of three: {points(sdWb.value)} of the method itself,{" "}
        {addedSdWb > 0 ? `${points(addedSdWb)} of the scale on so small a sample, ` : ""}
        {points(PLACES.sdWb.value / Math.sqrt(PLACES.grabs.value))} between places, with three grabs mixed. By
        method: {lean}.
      </p>
      <div class="odds-buttons">
        <button type="button" class="primary" onClick={take}>
          Bend the course to it
        </button>
        {(rate || taught) && !standing ? (
          <button
            type="button"
            onClick={() => {
              dispatch({ kind: "learned", learned: keepLearned(key, null) });
              if (clockMs !== null) forgetInBook(key);
            }}
          >
            Forget what this field taught
          </button>
        ) : null}
      </div>
      {standing && (rate || taught) ? (
        <p>To forget what this field taught, take its readings back first.</p>
      ) : null}
      {inForce === null ? null : (
        <p>
          Earlier readings of this field and crop, as far as they still count for this cut: it dries{" "}
          {numberText(inForce, 2, manner)} times as fast as the model's usual one.
        </p>
      )}
      {texts.method === "microwave" ? (
        <Microwave
          manner={manner}
          onUse={(pct, scalePoints) =>
            change({ method: "microwave", value: editableText(pct, 1, manner.locale), scalePoints })
          }
        />
      ) : null}
    </div>
  );
}
