import type { BookDocs, Entry } from "../../model/book/index.ts";
import type { MadeCut } from "../made/made-cuts.ts";
import { LIES_AT_MOST_MS, learnedKey, placeKey } from "../reading/readings.ts";
import type { ForecastPlace } from "../weather/forecast.ts";

/** The cuts of a field that the book knows as mown and not yet brought in: they lie, in the forecast of the field's place. */
export function madeOfBook(
  { id, doc: field }: Entry<"fields">,
  cuts: readonly Entry<"cuts">[],
  place: ForecastPlace,
  nowMs: number,
): readonly MadeCut[] {
  return cuts.flatMap(({ doc }: { readonly doc: BookDocs["cuts"] }) => {
    const { fieldId, crop, cutUtc, closedUtc } = doc;
    if (fieldId !== id || !cutUtc || closedUtc) return [];
    const cutMs = Date.parse(cutUtc);
    if (cutMs > nowMs || nowMs - cutMs > LIES_AT_MOST_MS) return [];
    return [{ cutUtc, weather: placeKey(place), field: learnedKey(field.name, crop), keptMs: nowMs }];
  });
}
