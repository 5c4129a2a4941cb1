import { useEffect, useState } from "preact/hooks";
import type { Manner } from "../format/manner.ts";
import { type BestChange, bestOf, candidatesOf } from "../panel/best-change.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import type { Tries } from "./use-model.ts";

/** The change that helps most is looked for once the levers have rested this long, ms. */
const REST_MS = 500;

/** The one change that would bring the chosen route forward most; null while it is not known, and where there is none. */
export function useBestChange(
  picture: Picture | null,
  choice: Choice | null,
  manner: Manner,
  tries: Tries,
): BestChange | null {
  const [best, setBest] = useState<BestChange | null>(null);
  const cutUtc = choice?.option.cutUtc ?? null;
  const route = choice?.route?.route ?? null;
  useEffect(() => {
    setBest(null);
    if (picture === null || cutUtc === null || route === null) return;
    let gone = false;
    const timer = setTimeout(async () => {
      const chosen = { cutUtc, route };
      const candidates = candidatesOf(picture.inputs, picture.request, chosen, manner);
      if (candidates.length === 0) return;
      const tried = await tries(candidates.map(({ request }) => ({ request })));
      const answers = candidates.map((_, i) => tried[i]?.answer ?? null);
      if (!gone) setBest(bestOf(chosen, picture.answer, candidates, answers));
    }, REST_MS);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [picture?.id, cutUtc, route, manner]);
  return best;
}
