import { isoOf } from "../../model/book/due/item.ts";
import { within } from "../../model/limits.ts";
import { type Manner, numberMarksOf } from "../format/manner.ts";
import { fromPage, toPage, type Units, unitName } from "../format/units.ts";
import { timeField, timeOfField } from "../reading/read-reading.ts";
import { limitOnPage } from "../state/field-limits.ts";
import { limitWords, notANumber, readNumber } from "../state/numbers.ts";
import { newId } from "./new-id.ts";
import {
  itemsOf,
  type NumberSpec,
  type OneSpec,
  PLACE_IN_LIST,
  type Spec,
  textOf,
  type Values,
} from "./spec.ts";

/** Documents of the book into forms and back. A field that nobody touched gives back exactly what it was made of. */

export type FormManner = Pick<Manner, "units" | "locale" | "zone">;
export type Errors = Readonly<Record<string, string>>;
type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The value at a path with points. */
export function at(doc: unknown, path: string): unknown {
  return path.split(".").reduce<unknown>((part, key) => (isRecord(part) ? part[key] : undefined), doc);
}

/** The same document with a value at a path; without it where the value is undefined, and without what that leaves empty. */
function withAt(doc: Json, path: readonly string[], value: unknown): Json {
  const [key = "", ...rest] = path;
  const { [key]: before, ...others } = doc;
  const inside = rest.length === 0 ? value : withAt(isRecord(before) ? before : {}, rest, value);
  const empty =
    inside === undefined || (rest.length > 0 && isRecord(inside) && Object.keys(inside).length === 0);
  return empty ? others : { ...doc, [key]: inside };
}

const DECIMALS = 3;

/** A number of the document as its field shows it, by the locale and without grouping. */
function numberShown(value: number, spec: NumberSpec, { units, locale }: FormManner): string {
  const { quantity, percent = false, decimals = DECIMALS } = spec;
  const page = quantity === null ? value * (percent ? 100 : 1) : toPage(value, quantity, units);
  return page.toLocaleString(locale, {
    maximumFractionDigits: decimals,
    useGrouping: false,
    numberingSystem: "latn",
  });
}

function shown(value: unknown, spec: OneSpec, manner: FormManner): string {
  if (value === null || value === undefined) return "";
  if (spec.type === "number") return typeof value === "number" ? numberShown(value, spec, manner) : "";
  if (spec.type === "flag") return value === true ? "yes" : "";
  if (spec.type === "time") return timeField(Date.parse(String(value)), manner.zone);
  if (spec.type === "range") {
    const text = JSON.stringify(value);
    const index = spec.ranges.findIndex(({ range }) => JSON.stringify(range) === text);
    return index < 0 ? text : String(index);
  }
  return String(value);
}

export function valuesOf(specs: readonly Spec[], doc: unknown, manner: FormManner): Values {
  return Object.fromEntries(
    specs.map((spec) => {
      const value = at(doc, spec.path);
      if (spec.type !== "list") return [spec.path, shown(value, spec, manner)];
      const items = Array.isArray(value) ? value : [];
      return [
        spec.path,
        items.map((item: unknown, i) => ({
          ...valuesOf(spec.item, item, manner),
          [PLACE_IN_LIST]: String(i),
        })),
      ];
    }),
  );
}

/** The form of one more item of a list. */
export function emptyItem(item: readonly OneSpec[]): Values {
  return Object.fromEntries(item.map(({ path, type }) => [path, type === "id" ? newId() : ""]));
}

/** Limit of a number as its field has it. */
export function limitOf(spec: NumberSpec, units: Units) {
  const { limit, quantity, percent } = spec;
  if (percent) return { ...limit, min: limit.min * 100, max: limit.max * 100, unit: "%" };
  return limitOnPage({ ...limit, unit: spec.unit ?? limit.unit }, quantity, units);
}

/** The unit of a number as it stands beside it; undefined where it has none. */
export function numberUnit(spec: NumberSpec, { units }: FormManner): string | undefined {
  const unit = spec.quantity === null ? (spec.unit ?? spec.limit.unit) : unitName(spec.quantity, units);
  return unit === "" ? undefined : unit;
}

const EMPTY = "Empty; it is needed.";
const CONTROL = /[\p{Cc}\p{Cs}\u2028\u2029]/u;
const CONTROL_IN_NOTE = /[^\P{Cc}\n\r\t]|\p{Cs}/u;

type Read = { readonly value: unknown } | { readonly error: string };

function readNumberField(text: string, spec: NumberSpec, manner: FormManner): Read {
  const marks = numberMarksOf(manner.locale);
  const page = readNumber(text, marks);
  if (page === null) return { error: notANumber(text, marks) };
  const limit = limitOf(spec, manner.units);
  if (!within(page, limit)) return { error: `Got ${text.trim()}, ${limitWords(limit, manner.locale)}.` };
  if (spec.whole && !Number.isInteger(page)) return { error: `Got ${text.trim()}, must be a whole number.` };
  if (spec.quantity !== null) return { value: fromPage(page, spec.quantity, manner.units) };
  return { value: spec.percent ? Number((page / 100).toFixed(6)) : page };
}

function readText(text: string, spec: OneSpec, manner: FormManner): Read {
  switch (spec.type) {
    case "text":
    case "note": {
      if (text.length > spec.most)
        return { error: `Got ${text.length} characters, must have at most ${spec.most}.` };
      if ((spec.type === "note" ? CONTROL_IN_NOTE : CONTROL).test(text))
        return { error: "Must hold no control characters." };
      return { value: spec.type === "note" ? text : text.trim() };
    }
    case "number":
      return readNumberField(text, spec, manner);
    case "time": {
      const ms = timeOfField(text, manner.zone);
      return ms === null
        ? { error: `Got "${text}", must be a day and an hour of the farm's clock.` }
        : { value: isoOf(ms) };
    }
    case "clock":
      return spec.shape.test(text.trim())
        ? { value: text.trim() }
        : { error: `Got "${text}", must be a time of day as 07:00.` };
    case "flag":
      return { value: text === "yes" ? true : undefined };
    case "range":
      return { value: spec.ranges[Number(text)]?.range ?? JSON.parse(text) };
    case "choice":
    case "ref":
    case "id":
      return { value: text };
  }
}

/** One field of a form: the document with it, or what is wrong with it. */
function readOne(values: Values, spec: OneSpec, before: unknown, manner: FormManner): Read {
  const text = textOf(values, spec.path);
  const asked = spec.when?.(values) ?? true;
  if (!asked) return { value: undefined };
  // What stands there as it was shown is what it was, to the last digit.
  if (before !== undefined && before !== null && text === shown(before, spec, manner))
    return { value: before };
  if (text.trim() === "") {
    const filled = spec.neededWith === undefined ? false : textOf(values, spec.neededWith).trim() !== "";
    return spec.needed || filled ? { error: EMPTY } : { value: undefined };
  }
  return readText(text, spec, manner);
}

export interface ReadForm {
  readonly errors: Errors;
  /** Null while something is wrong. */
  readonly doc: Json | null;
}

/**
 * The document of a form, or everything that is wrong with it by path, as "sprays[0].intervalDays".
 *
 * @param before the document that was opened: what the form does not ask for stays as it is there
 */
export function readForm(specs: readonly Spec[], values: Values, before: Json, manner: FormManner): ReadForm {
  const errors: Record<string, string> = {};
  let doc: Json = before;
  for (const spec of specs) {
    const path = spec.path.split(".");
    if (spec.type !== "list") {
      const read = readOne(values, spec, at(before, spec.path), manner);
      if ("error" in read) errors[spec.path] = read.error;
      else doc = withAt(doc, path, read.value);
      continue;
    }
    const olds = at(before, spec.path);
    const items = itemsOf(values, spec.path).map((item, i) => {
      const old: unknown = Array.isArray(olds) ? olds[Number(textOf(item, PLACE_IN_LIST) || -1)] : undefined;
      const read = readForm(spec.item, item, isRecord(old) ? old : {}, manner);
      for (const [key, error] of Object.entries(read.errors)) errors[`${spec.path}[${i}].${key}`] = error;
      return read.doc ?? {};
    });
    if (items.length > spec.most) errors[spec.path] = `Got ${items.length}, must be at most ${spec.most}.`;
    doc = withAt(doc, path, items.length === 0 ? undefined : items);
  }
  return { errors, doc: Object.keys(errors).length > 0 ? null : doc };
}

/**
 * The same form in other units, or on the clock of another farm: what can be read is told anew, what cannot stays as typed.
 */
export function inUnits(specs: readonly Spec[], values: Values, from: FormManner, to: FormManner): Values {
  const next: Record<string, string | readonly Values[]> = { ...values };
  for (const spec of specs) {
    if (spec.type === "list")
      next[spec.path] = itemsOf(values, spec.path).map((item) => inUnits(spec.item, item, from, to));
    if (spec.type === "time" && from.zone !== to.zone) {
      const ms = timeOfField(textOf(values, spec.path), from.zone);
      if (ms !== null) next[spec.path] = timeField(ms, to.zone);
    }
    if (spec.type !== "number" || spec.quantity === null) continue;
    if (from.units === to.units && from.locale === to.locale) continue;
    const page = readNumber(textOf(values, spec.path), numberMarksOf(from.locale));
    if (page !== null) next[spec.path] = numberShown(fromPage(page, spec.quantity, from.units), spec, to);
  }
  return next;
}
