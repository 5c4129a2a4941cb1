import { useEffect, useRef, useState } from "preact/hooks";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { useOpenWithRoom } from "../fold/use-room.ts";
import { fullText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import { chosen } from "../state/choice.ts";
import type { Picture, State } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { pastOf } from "../states/past.ts";
import { type PageState, stateChips } from "../states/state-chips.ts";
import { type Chip, chipsOf, lacksRain } from "./chips.ts";
import { OddsLine } from "./OddsLine.tsx";
import { oddsChangeText } from "./odds-change.ts";
import { type SentencePlace, toAnswerSentence, toChoiceSentence } from "./sentence.ts";
import "./answer.css";

function Chips({ chips, label }: { readonly chips: readonly Chip[]; readonly label: string }) {
  if (chips.length === 0) return null;
  return (
    <ul class="chips" aria-label={label}>
      {chips.map(({ text, caution }) => (
        <li key={text} class={caution ? "chip warn" : "chip"}>
          {text}
        </li>
      ))}
    </ul>
  );
}

const TOO_OLD = "This forecast is too old to decide by.";

/** "It was made Thursday 12 Nov 09:00. The board below is its last." */
function madeText({ issuedUtc, fetchedUtc }: WeatherSeries, manner: Manner): string {
  const made = issuedUtc ?? fetchedUtc;
  return made == null ? "" : `It was made ${fullText(made, manner)}; the board below is its last.`;
}

const REST_MS = 500;

/** A text as it stood when it had rested: a lever on the move is not talked over. Empty until it first changes. */
function useRested(text: string): string {
  const [rested, setRested] = useState("");
  const first = useRef(text);
  useEffect(() => {
    if (text === first.current && rested === "") return;
    const timer = setTimeout(() => setRested(text), REST_MS);
    return () => clearTimeout(timer);
  }, [text]);
  return rested;
}

/**
 * The answer before everything else: what to do in the largest type, then what it brings, then why. Warnings about the
 * weather are always in sight.
 */
export function AnswerHead({
  picture,
  selection,
  manner,
  onBest,
  now,
  odds = null,
}: {
  readonly picture: Picture;
  readonly manner: Manner;
  readonly selection: State["selection"];
  readonly onBest: () => void;
  /** What the network and the age of the weather take from the answer. */
  readonly now: PageState;
  /** How far the chances are; null while none are under work. */
  readonly odds?: State["odds"];
}) {
  const { answer, inputs, request, source, bestBefore } = picture;
  const fromUtc = request.nowUtc ?? source.series.hours.startUtc[0] ?? answer.usableUntilUtc;
  const fieldName = inputs.fieldName.trim() || "the field";
  const past = pastOf(source, now.nowMs) !== null;
  const place: SentencePlace = {
    fieldName,
    manner,
    fromUtc,
    ...(source.kind === "sample" ? {} : { nearMs: now.nowMs }),
    past,
    currency: inputs.texts.currency.text.trim(),
    noRain: lacksRain(source.series),
  };
  const sentence = toAnswerSentence(answer, selection, place);
  const best = answer.best.overall;
  const other = best !== null && chosen(answer, selection)?.option.id !== best.optionId;
  const chips = [...stateChips(picture, now, manner), ...chipsOf(picture, manner)];
  const expired = weatherAge(source.series, now.nowMs).level === "expired";
  const [open, setOpen] = useOpenWithRoom();
  const changed = expired || past || other ? "" : oddsChangeText(answer, bestBefore, manner);
  const said = expired ? { headline: TOO_OLD, promise: madeText(source.series, manner), why: "" } : sentence;
  const rested = useRested(`${said.headline} ${said.promise} ${changed}`.trim());
  return (
    <>
      <p class="hidden" role="status">
        {rested}
      </p>
      <section class="answer">
        <h1>{said.headline}</h1>
        <p class="promise">{unitsKept(said.promise)}</p>
        {said.why === "" ? null : <p class="why">{unitsKept(said.why)}</p>}
        {other && !expired ? (
          <>
            <button type="button" class="chip go" onClick={onBest}>
              {sentence.runnerUp.replace(/\.$/, "")}
            </button>
            {/* A button is not printed; what it says is. */}
            <p class="why best-said">{unitsKept(sentence.runnerUp)}</p>
          </>
        ) : null}
        {changed === "" ? null : <p class="why odds-change">{unitsKept(changed)}</p>}
        {expired ? null : (
          <OddsLine answer={answer} odds={odds} choice={toChoiceSentence(answer, place)} rules={!past} />
        )}
        <Chips chips={chips.filter(({ caution }) => caution)} label="Look at this" />
        <details
          class="answer-more"
          open={open}
          onToggle={({ currentTarget }) => setOpen(currentTarget.open)}
        >
          <summary>Next best cut, and more on this answer</summary>
          {other || expired || sentence.runnerUp === "" || answer.odds ? null : (
            <p class="runner-up">{unitsKept(sentence.runnerUp)}</p>
          )}
          {expired || sentence.opinions === "" ? null : <p class="why">{unitsKept(sentence.opinions)}</p>}
          {answer.odds ? <p class="why">{unitsKept(answer.odds.text)}</p> : null}
          <Chips chips={chips.filter(({ caution }) => !caution)} label="About this answer" />
        </details>
      </section>
    </>
  );
}
