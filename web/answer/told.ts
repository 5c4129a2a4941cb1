import type { Manner } from "../format/manner.ts";
import { chosen, type Selection } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { pastOf } from "../states/past.ts";
import { type PageState, stateChips } from "../states/state-chips.ts";
import { type Chip, chipsOf, lacksRain } from "./chips.ts";
import { oddsChangeText } from "./odds-change.ts";
import {
  type AnswerSentence,
  equalInWords,
  type SentencePlace,
  toAnswerSentence,
  toChoiceSentence,
} from "./sentence.ts";

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
  /** The runner-up, where the chances cannot tell it from the best; empty where they can. */
  readonly equal: string;
  /** The runner-up by the chances, and what would turn the choice; empty without them. */
  readonly choice: string;
  readonly chips: readonly Chip[];
}

export function toldOf(picture: Picture, selection: Selection | null, manner: Manner, now: PageState): Told {
  const { answer, inputs, request, source, bestBefore } = picture;
  const past = pastOf(source, now.nowMs) !== null;
  const expired = weatherAge(source.series, now.nowMs).level === "expired";
  const place: SentencePlace = {
    fieldName: inputs.fieldName.trim() || "the field",
    manner,
    fromUtc: request.nowUtc ?? source.series.hours.startUtc[0] ?? answer.usableUntilUtc,
    ...(source.kind === "sample" ? {} : { nearMs: now.nowMs }),
    past,
    currency: inputs.texts.currency.text.trim(),
    noRain: lacksRain(source.series),
  };
  const best = answer.best.overall;
  const other = best !== null && chosen(answer, selection)?.option.id !== best.optionId;
  return {
    sentence: toAnswerSentence(answer, selection, place),
    other,
    past,
    expired,
    changed: expired || past || other ? "" : oddsChangeText(answer, bestBefore, manner),
    equal: expired || past || other ? "" : equalInWords(answer, place),
    choice: toChoiceSentence(answer, place),
    chips: [...stateChips(picture, now, manner), ...chipsOf(picture, manner)],
  };
}
