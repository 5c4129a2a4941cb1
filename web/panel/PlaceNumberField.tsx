import { useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import { fromPage, PAGE_UNITS, toPage, type Units, unitName } from "../format/units.ts";
import { type Pair, splitPair } from "../place/split-pair.ts";
import { limitOnPage } from "../state/field-limits.ts";
import type { Speech } from "../state/field-reader.ts";
import { degreesText, editableText, readNumber } from "../state/numbers.ts";
import type { Upload } from "../state/state.ts";
import { keptMetres, PLACE_LIMITS, PLACE_QUANTITIES, placeMarksOf, readPlace } from "../weather/upload.ts";
import { rangeHint, TextField } from "./Field.tsx";

type PlaceNumber = keyof typeof PLACE_LIMITS;

/** A number of the place, typed and shown in the units of the page; kept in metric, as the server takes it. */
export function PlaceNumberField({
  label,
  field,
  upload,
  dispatch,
  speech: { units = "metric", locale = "en" },
  hint,
}: {
  readonly label: string;
  readonly field: PlaceNumber;
  readonly upload: Upload;
  readonly dispatch: Dispatch;
  readonly speech: Speech;
  /** In place of the range, where there is more to say. */
  readonly hint?: string;
}) {
  // What is being typed stands as typed for as long as it means what is kept.
  const [typed, setTyped] = useState<{
    readonly text: string;
    readonly kept: string;
    readonly units: Units;
  }>();
  const [left, setLeft] = useState(false);
  const kept = upload.place[field];
  const put = (pair: Pair | null): boolean => {
    if (pair === null || (field !== "latitude" && field !== "longitude")) return false;
    setTyped(undefined);
    dispatch({ kind: "place", field: "latitude", text: pair.latitude });
    dispatch({ kind: "place", field: "longitude", text: pair.longitude });
    return true;
  };
  const wrong = () =>
    kept.trim() === "" ? undefined : readPlace(upload.place, {}, { units, locale }).errors[field];
  const quantity = PLACE_QUANTITIES[field];
  const marks = placeMarksOf(locale);
  const number = quantity === null ? null : readNumber(kept, marks);
  const shown =
    quantity === null || number === null
      ? kept
      : editableText(
          toPage(number, quantity, units),
          units === "metric" ? 2 : PAGE_UNITS[quantity][units].decimals,
          locale,
        );
  const keep = (text: string) => {
    if (quantity === null) return degreesText(text);
    const value = readNumber(text, marks);
    return value === null ? text : keptMetres(fromPage(value, quantity, units));
  };
  return (
    <TextField
      label={label}
      unit={quantity === null ? undefined : unitName(quantity, units)}
      hint={hint ?? rangeHint(limitOnPage(PLACE_LIMITS[field], quantity, units), locale)}
      error={upload.errors[field] ?? (left ? wrong() : undefined)}
      value={typed?.kept === kept && typed.units === units ? typed.text : shown}
      onLeave={(text) => {
        setLeft(true);
        put(splitPair(text));
      }}
      onPasted={(text) => put(splitPair(text))}
      onText={(text) => {
        setLeft(false);
        const metric = keep(text);
        setTyped({ text, kept: metric, units });
        dispatch({ kind: "place", field, text: metric });
      }}
    />
  );
}
