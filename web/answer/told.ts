import type { WindowsAnswer } from "../../model/harvest/index.ts";
import { type Manner, yearSaid } from "../format/manner.ts";
import { boardFromUtc } from "../state/board-from.ts";
import { chosen, type Selection } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { pastOf } from "../states/past.ts";
import { type PageState, stateChips } from "../states/state-chips.ts";
import { type Chip, chipsOf, lacksRain, readingDoubts } from "./chips.ts";
import { oddsChangeText } from "./odds-change.ts";
import { type AnswerSentence, type SentencePlace, toAnswerSentence, toChoiceSentence } from "./sentence.ts";
import { unrankedSentence } from "./unranked.ts";

/** All that is told of a picture: the head takes what is looked at first, the rest stands under the board. */
export interface Told {
  readonly sentence: AnswerSentence;
  /** Another row than the best is looked at. */
  readonly other: boolean;
  /** The weather lies behind. */
  readonly past: boolean;
  /** The forecast is too old to decide by. */
  readonly expired: boolean;
  /** Why the chances put another cut first; empty where they do not. */
  readonly changed: string;
  /**
   * The one line under the promise: once the chances are told the choice that they leave, else what decides the answer.
   * Empty where the way back to the best stands in its place.
   */
  readonly line: string;
  /** What else there is to say, under the board; nothing of it twice. */
  readonly more: readonly string[];
  readonly chips: readonly Chip[];
}

function withoutRules(answer: WindowsAnswer): WindowsAnswer {
  return answer.odds ? { ...answer, odds: { ...answer.odds, cutRules: [] } } : answer;
}

/** A line's first sentence, and what follows it: on a phone that stands under the board, which should begin in the first view. */
export function firstSentence(line: string): readonly [first: string, rest: string] {
  const [first = "", ...rest] = line.split(/(?<=\.) (?=[A-Z])/);
  return [first, rest.join(" ")];
}

/** @param costsWrong what waiting and rain cost cannot be read: nothing is told by what it was before */
export function toldOf(
  picture: Picture,
  selection: Selection | null,
  manner: Manner,
  now: PageState,
  costsWrong = false,
): Told {
  const { inputs, source, bestBefore } = picture;
  const answer = costsWrong ? withoutRules(picture.answer) : picture.answer;
  const past = pastOf(source, now.nowMs) !== null;
  const expired = weatherAge(source.series, now.nowMs).level === "expired";
  const place: SentencePlace = {
    fieldName: inputs.fieldName.trim() || "the field",
    manner,
    fromUtc: boardFromUtc(picture),
    past,
    currency: inputs.texts.currency.text.trim(),
    noRain: lacksRain(source.series),
  };
  // The headline says the year.
  const then: SentencePlace = { ...place, manner: yearSaid(manner) };
  const best = answer.best.overall;
  const other = best !== null && chosen(answer, selection)?.option.id !== best.optionId;
  const sentence = toAnswerSentence(answer, selection, place);
  const changed = expired || past || other ? "" : oddsChangeText(answer, bestBefore, then.manner);
  const choice = toChoiceSentence(answer, then);
  const line = expired || other ? "" : (past ? "" : choice) || changed || sentence.why;
  const next = answer.odds ? choice : other ? "" : sentence.runnerUp;
  const lines = expired
    ? []
    : [next, unrankedSentence(answer, then), changed, sentence.why, sentence.opinions];
  return {
    sentence,
    other,
    past,
    expired,
    changed,
    line,
    more: [...lines, answer.odds?.text ?? ""].filter((one) => one !== "" && one !== line),
    chips: [
      ...readingDoubts(picture, selection),
      ...stateChips(picture, now, manner),
      ...chipsOf(picture, manner),
    ],
  };
}
