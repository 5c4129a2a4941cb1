import { type DecimalMark, decimalMarkOf } from "../format/manner.ts";
import { fromPage, PAGE_UNITS, type Quantity, toPage, toStep, type Units } from "../format/units.ts";
import { readHour } from "./clock-text.ts";
import { FIELD_LIMITS } from "./field-limits.ts";
import { TEXT_FIELDS, type TextField, type Typed } from "./inputs.ts";
import { editableText, readNumber } from "./numbers.ts";

const MOST_DECIMALS = 3;
/** So far a shown step may lie from what is computed with, as a share of it. */
const FARTHEST_STEP = 0.02;

const isNumberField = (field: TextField) =>
  field === "swathWidthM" || (field !== "tedHour" && Object.hasOwn(FIELD_LIMITS, field));

/** A number that was typed with another decimal mark than its reader's. */
function inMark(text: string, from: DecimalMark, to: DecimalMark): string {
  return from === to ? text : text.replace(from, to);
}

/**
 * A typed number as it stands in a field: as typed, or to a practical step of the other system. What is computed with
 * stays what was typed.
 */
export function shownTyped(
  quantity: Quantity | null,
  { text, units, mark }: Typed,
  to: Units,
  locale = "en",
): string {
  const value = readNumber(text, mark);
  if (value === null) return text;
  if (quantity === null || units === to) return inMark(text, mark ?? ".", decimalMarkOf(locale));
  const page = toPage(fromPage(value, quantity, units), quantity, to);
  const stepped = toStep(page, quantity, to);
  // A step that would show another value than the one computed with is left out.
  const isFar = Math.abs(stepped - page) > FARTHEST_STEP * Math.abs(page);
  return isFar
    ? editableText(page, PAGE_UNITS[quantity][to].decimals, locale)
    : editableText(stepped, MOST_DECIMALS, locale);
}

/** The same of a field by its name; hours and other words stay as typed. */
export function shownText(field: TextField, typed: Typed, to: Units, locale = "en"): string {
  return isNumberField(field) ? shownTyped(TEXT_FIELDS[field], typed, to, locale) : typed.text;
}

/** The typed number in the unit of the model; null where it is none. */
export function typedValue(field: TextField, { text, units, mark }: Typed): number | null {
  if (field === "tedHour") return readHour(text);
  const quantity = TEXT_FIELDS[field];
  const value = readNumber(text, mark);
  if (value === null) return null;
  return quantity === null ? value : fromPage(value, quantity, units);
}
