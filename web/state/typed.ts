import { decimalMarkOf, type Manner, numberMarksOf } from "../format/manner.ts";
import { fromPage, PAGE_UNITS, type Quantity, toPage, toStep, type Units } from "../format/units.ts";
import { readHour } from "./clock-text.ts";
import { FIELD_LIMITS } from "./field-limits.ts";
import { TEXT_FIELDS, type TextField, type Typed } from "./inputs.ts";
import { editableText, readNumber, withPoint } from "./numbers.ts";

const MOST_DECIMALS = 3;
/** So far a shown step may lie from what is computed with, as a share of it. */
const FARTHEST_STEP = 0.02;

/** Whether a field holds one number: others hold hours, lists of them, or a word. */
export const isNumberField = (field: TextField) =>
  field === "swathWidthM" || (field !== "tedHour" && Object.hasOwn(FIELD_LIMITS, field));

/** A text as it is typed just now: with the units and the marks of the one who types. */
export function typedNow(text: string, { units, locale }: Pick<Manner, "units" | "locale">): Typed {
  return { text, units, marks: numberMarksOf(locale) };
}

/** A typed number as its reader writes it, digits as typed. */
function inMarksOf(locale: string, { text, marks = "." }: Typed): string {
  return marks === numberMarksOf(locale) ? text : withPoint(text, marks).replace(".", decimalMarkOf(locale));
}

/**
 * A typed number as it stands in a field: as typed, or to a practical step of the other system. What is computed with
 * stays what was typed.
 */
export function shownTyped(quantity: Quantity | null, typed: Typed, to: Units, locale = "en"): string {
  const { text, units, marks } = typed;
  const value = readNumber(text, marks);
  if (value === null) return text;
  if (quantity === null || units === to) return inMarksOf(locale, typed);
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
export function typedValue(field: TextField, { text, units, marks }: Typed): number | null {
  if (field === "tedHour") return readHour(text);
  const quantity = TEXT_FIELDS[field];
  const value = readNumber(text, marks);
  if (value === null) return null;
  return quantity === null ? value : fromPage(value, quantity, units);
}
