import { type DecimalMark, decimalMarkOf } from "../format/manner.ts";
import { fromPage, toPage, toStep, type Units } from "../format/units.ts";
import { readHour } from "./clock-text.ts";
import { FIELD_LIMITS } from "./field-limits.ts";
import { TEXT_FIELDS, type TextField, type Typed } from "./inputs.ts";
import { editableText, readNumber } from "./numbers.ts";

const MOST_DECIMALS = 3;

const isNumberField = (field: TextField) =>
  field === "swathWidthM" || (field !== "tedHour" && Object.hasOwn(FIELD_LIMITS, field));

/** A number that was typed with another decimal mark than its reader's. */
function inMark(text: string, from: DecimalMark, to: DecimalMark): string {
  return from === to ? text : text.replace(from, to);
}

/**
 * A typed text as it stands in the field: as typed, or to a practical step of the other system. What is computed with
 * stays what was typed.
 */
export function shownText(field: TextField, { text, units, mark }: Typed, to: Units, locale = "en"): string {
  const quantity = TEXT_FIELDS[field];
  const value = readNumber(text, mark);
  if (quantity === null || units === to || value === null)
    return value === null || !isNumberField(field) ? text : inMark(text, mark ?? ".", decimalMarkOf(locale));
  const shown = toStep(toPage(fromPage(value, quantity, units), quantity, to), quantity, to);
  return editableText(shown, MOST_DECIMALS, locale);
}

/** The typed number in the unit of the model; null where it is none. */
export function typedValue(field: TextField, { text, units, mark }: Typed): number | null {
  if (field === "tedHour") return readHour(text);
  const quantity = TEXT_FIELDS[field];
  const value = readNumber(text, mark);
  if (value === null) return null;
  return quantity === null ? value : fromPage(value, quantity, units);
}
