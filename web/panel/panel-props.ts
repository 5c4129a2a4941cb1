import type { Dispatch } from "../app/use-model.ts";
import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import { shownClock } from "../state/clock-text.ts";
import { FIELD_LIMITS, limitOnPage } from "../state/field-limits.ts";
import { type Inputs, TEXT_FIELDS, type TextField } from "../state/inputs.ts";
import type { ReadInputs } from "../state/read-inputs.ts";
import { shownText } from "../state/typed.ts";
import { rangeHint } from "./Field.tsx";

export interface PanelProps {
  readonly inputs: Inputs;
  readonly read: ReadInputs;
  readonly dispatch: Dispatch;
  readonly manner: Manner;
}

/** What a typed field of the panel has: text, unit, error, and the range of its numbers after a word on what it does. */
export interface FieldProps {
  readonly value: string;
  readonly unit: string | undefined;
  readonly hint: string | undefined;
  readonly error: string | undefined;
  /** What a link said of the field, where it could not be used. */
  readonly note: string | undefined;
  readonly onText: (text: string) => void;
  readonly display: (text: string) => string;
}

function rangeOf(field: TextField, { units, locale }: Manner): string | null {
  if (!(field in FIELD_LIMITS)) return null;
  const limit = FIELD_LIMITS[field as keyof typeof FIELD_LIMITS];
  return rangeHint(limitOnPage(limit, TEXT_FIELDS[field], units), locale);
}

/**
 * The props of a typed field in the chosen units and on the reader's clock.
 *
 * @param does what the value does, a few words; null for nothing but the range
 */
export function fieldProps(
  { inputs, read, dispatch, manner }: PanelProps,
  field: TextField,
  does: string | null = null,
): FieldProps {
  const quantity = TEXT_FIELDS[field];
  const range = rangeOf(field, manner);
  const hint = [does, range].filter((part) => part !== null).join("; ");
  return {
    value: shownText(field, inputs.texts[field], manner.units, manner.locale),
    unit: quantity === null ? undefined : unitName(quantity, manner.units),
    hint: hint === "" ? undefined : hint,
    error: read.errors[field],
    note: inputs.texts[field].told,
    onText: (text) => dispatch({ kind: "text", field, text }),
    display: (text) => shownClock(field, text, manner.hour12),
  };
}
