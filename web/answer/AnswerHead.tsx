import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import { chosen } from "../state/choice.ts";
import type { Picture, State } from "../state/state.ts";
import { chipsOf } from "./chips.ts";
import { bestInWords, toAnswerSentence } from "./sentence.ts";

/** The answer before everything else: what to do in the largest type, then what it brings, then why. */
export function AnswerHead({
  picture,
  selection,
  manner,
  onBest,
}: {
  readonly picture: Picture;
  readonly manner: Manner;
  readonly selection: State["selection"];
  readonly onBest: () => void;
}) {
  const { answer, inputs, source } = picture;
  const place = {
    fieldName: inputs.fieldName.trim() || "the field",
    manner,
    fromUtc: source.series.hours.startUtc[0] ?? answer.usableUntilUtc,
  };
  const sentence = toAnswerSentence(answer, selection, place);
  const other = answer.best.overall && chosen(answer, selection)?.option.id !== answer.best.overall.optionId;
  const best = other ? bestInWords(answer, place) : null;
  return (
    <section class="answer" aria-live="polite">
      <h1>{sentence.headline}</h1>
      <p class="promise">{sentence.promise}</p>
      <p class="why">{unitsKept(sentence.why)}</p>
      {sentence.opinions === "" ? null : <p class="why">{unitsKept(sentence.opinions)}</p>}
      <ul class="chips" aria-label="About this answer">
        {chipsOf(picture).map(({ text, caution }) => (
          <li key={text} class={caution ? "chip warn" : "chip"}>
            {text}
          </li>
        ))}
        <li class="chip">Times are the farm's: {manner.zone}</li>
        {best ? (
          <li>
            <button type="button" class="chip go" onClick={onBest}>
              {best}
            </button>
          </li>
        ) : null}
      </ul>
    </section>
  );
}
