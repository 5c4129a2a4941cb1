import { useMemo } from "preact/hooks";
import { firstAgainstWaiting } from "../../model/harvest/index.ts";
import type { Manner } from "../format/manner.ts";
import { ROUTE_LABELS } from "../format/words.ts";
import type { Picture } from "../state/state.ts";
import { moneyPer } from "./money-words.ts";

/** In a sentence what waiting brings against harvesting now; a question where nothing was typed. */
export function waitingSentence({ request, source, answer, inputs }: Picture, manner: Manner): string {
  if (request.leave === undefined)
    return "Type what grain or regrowth would bring: the value standing is set against the value harvested.";
  const { first: best, leave } = firstAgainstWaiting({ ...request, weather: source.series }, answer);
  if (!best || best.valuePerHa === null || leave === null)
    return "Nothing can be brought in in this weather, so there is nothing to set waiting against.";
  const { better, differencePerHa, standingPerHa } = leave;
  const per = (value: number) => moneyPer(value, "perHa", inputs.texts.currency.text.trim(), manner);
  const verdict =
    better === "harvest"
      ? `Harvesting now is worth ${per(differencePerHa)} more`
      : `Leaving it is worth ${per(-differencePerHa)} more`;
  return `${verdict}: ${per(best.valuePerHa)} by ${ROUTE_LABELS[best.route]} against ${per(standingPerHa)} by waiting.`;
}

/** That sentence under the questions before cutting. */
export function AgainstWaiting({ picture, manner }: { readonly picture: Picture; readonly manner: Manner }) {
  const sentence = useMemo(() => waitingSentence(picture, manner), [picture, manner]);
  return (
    <p class="side-more" aria-live="polite">
      {sentence}
    </p>
  );
}
