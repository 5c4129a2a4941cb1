import { useEffect, useRef, useState } from "preact/hooks";
import { WRONG_COSTS_TEXT } from "../../model/odds/cost-loss.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { fullText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import type { Picture, State } from "../state/state.ts";
import { TOO_OLD } from "../states/age.ts";
import { Chips } from "./Chips.tsx";
import { OddsLine } from "./OddsLine.tsx";
import type { Told } from "./told.ts";
import "./answer.css";

/** "It was made Thursday 12 Nov 09:00. The board below is its last." */
function madeText({ issuedUtc, fetchedUtc }: WeatherSeries, manner: Manner): string {
  const made = issuedUtc ?? fetchedUtc;
  return made == null ? "" : `It was made ${fullText(made, manner)}; the board below is its last.`;
}

const SO_FAR = "So far: ";

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
 * The answer before everything else: what to do in the largest type, what it brings, and one line of what presses most.
 * Warnings about the weather are always in sight; the rest is told under the board.
 */
export function AnswerHead({
  picture,
  told,
  manner,
  onBest,
  odds = null,
  costsWrong = false,
}: {
  readonly picture: Picture;
  readonly told: Told;
  readonly manner: Manner;
  readonly onBest: () => void;
  /** How far the chances are; null while none are under work. */
  readonly odds?: State["odds"];
  /** What waiting and rain cost cannot be read: nothing is told by what it was before. */
  readonly costsWrong?: boolean;
}) {
  const { answer, source } = picture;
  const { sentence, other, past, expired, changed, line, chips } = told;
  const said = expired ? { headline: TOO_OLD, promise: madeText(source.series, manner) } : sentence;
  // Chances may put another cut first: an order given before they are known says that it may turn.
  const soFar = answer.odds === undefined && !past && !expired && !other;
  const rested = useRested(`${soFar ? SO_FAR : ""}${said.headline} ${said.promise} ${changed}`.trim());
  return (
    <>
      <p class="hidden" role="status">
        {rested}
      </p>
      <section class="answer">
        <h1>
          {soFar ? <span class="so-far">{SO_FAR}</span> : null}
          {said.headline}
        </h1>
        <p class="promise">{unitsKept(said.promise)}</p>
        {answer.odds ? null : <p class="print-only">Printed before the chances were worked out.</p>}
        {expired ? null : other ? (
          <>
            <button type="button" class="chip go" onClick={onBest}>
              {sentence.runnerUp.replace(/\.$/, "")}
            </button>
            {/* A button is not printed; what it says is. */}
            <p class="why best-said">{unitsKept(sentence.runnerUp)}</p>
          </>
        ) : (
          <OddsLine
            answer={answer}
            odds={odds}
            rules={!past && !costsWrong}
            line={line}
            noRule={costsWrong && !past && answer.odds ? WRONG_COSTS_TEXT : ""}
          />
        )}
        <Chips chips={chips.filter(({ caution }) => caution)} label="Look at this" />
      </section>
    </>
  );
}
