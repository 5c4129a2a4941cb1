import { fullText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { PAGE_UNITS, toPage } from "../format/units.ts";
import { timeOfField } from "../reading/read-reading.ts";
import type { ShownKind } from "./book-data.ts";
import { at, numberUnit, valuesOf } from "./form.ts";
import { FORMS } from "./forms.ts";
import type { AnyDoc } from "./queue.ts";
import { type NumberSpec, type OneSpec, PLACE_IN_LIST, type Spec, textOf, type Values } from "./spec.ts";

/** Two versions of an entry side by side, as the forms tell their fields. Pure. */

export interface Difference {
  readonly label: string;
  readonly mine: string;
  readonly theirs: string;
}

/** How an entry of the book that a document names is told. */
export type NameOf = (spec: Extract<OneSpec, { type: "ref" }>, id: string) => string;

function wordOf(spec: OneSpec, text: string, nameOf: NameOf, manner: Manner): string {
  if (text === "") return "not known";
  if (spec.type === "choice") return spec.choices.find(([key]) => key === text)?.[1] ?? text;
  if (spec.type === "range") return spec.ranges[Number(text)]?.says ?? text;
  if (spec.type === "ref") return nameOf(spec, text);
  if (spec.type === "number") return `${text} ${numberUnit(spec, manner) ?? ""}`.trim();
  if (spec.type === "time") {
    const ms = timeOfField(text, manner.zone);
    return ms === null ? text.replace("T", " ") : fullText(ms, manner);
  }
  return text;
}

const MOST_DECIMALS = 3;

/** Two numbers of one field to the same decimal: as few as people read it with, and as many as tell them apart. */
function numbersTold(spec: NumberSpec, versions: readonly unknown[], manner: Manner): string[] | null {
  const unit = numberUnit(spec, manner) ?? "";
  const usual =
    spec.quantity === null ? (spec.decimals ?? 1) : PAGE_UNITS[spec.quantity][manner.units].decimals;
  const pages = versions.map((value) => {
    if (typeof value !== "number") return null;
    if (spec.quantity !== null) return toPage(value, spec.quantity, manner.units);
    return spec.percent ? value * 100 : value;
  });
  const written = (decimals: number, least: number) =>
    pages.map((value) =>
      value === null
        ? "not known"
        : `${value.toLocaleString(manner.locale, {
            minimumFractionDigits: least,
            maximumFractionDigits: decimals,
            useGrouping: false,
            numberingSystem: "latn",
          })} ${unit}`.trim(),
    );
  for (let decimals = usual; decimals <= Math.max(usual, MOST_DECIMALS); decimals += 1) {
    const whole = pages.every((value) => value === null || Number.isInteger(Number(value.toFixed(decimals))));
    const texts = written(decimals, whole ? 0 : decimals);
    if (texts[0] !== texts[1]) return texts;
  }
  return null;
}

function told(spec: Spec, values: Values, nameOf: NameOf, manner: Manner): string {
  if (spec.type !== "list") return wordOf(spec, textOf(values, spec.path), nameOf, manner);
  const items = values[spec.path];
  if (typeof items !== "object" || items.length === 0) return "none";
  return items
    .map((item) =>
      spec.item
        .filter(({ path, type }) => type !== "id" && path !== PLACE_IN_LIST && textOf(item, path) !== "")
        .map((one) => wordOf(one, textOf(item, one.path), nameOf, manner))
        .join(", "),
    )
    .join("; ");
}

/** What the form does not ask for, told as it is kept. */
function others(kind: ShownKind, mine: AnyDoc, theirs: AnyDoc): Difference[] {
  const asked = new Set(FORMS[kind].map(({ path }) => path.split(".")[0]));
  const keys = new Set([...Object.keys(mine), ...Object.keys(theirs)]);
  const text = (doc: AnyDoc, key: string) => JSON.stringify(Reflect.get(doc, key) ?? null);
  return [...keys].flatMap((key) =>
    asked.has(key) || text(mine, key) === text(theirs, key)
      ? []
      : [{ label: key, mine: text(mine, key), theirs: text(theirs, key) }],
  );
}

export function differences(
  kind: ShownKind,
  mine: AnyDoc,
  theirs: AnyDoc,
  manner: Manner,
  nameOf: NameOf,
): Difference[] {
  const [here, there] = [mine, theirs].map((doc) => valuesOf(FORMS[kind], doc, manner));
  const shown = FORMS[kind].flatMap((spec) => {
    const [a, b] = [here ?? {}, there ?? {}].map((values) => told(spec, values, nameOf, manner));
    if (a === b) return [];
    const [x, y] =
      (spec.type === "number" &&
        numbersTold(
          spec,
          [mine, theirs].map((doc) => at(doc, spec.path)),
          manner,
        )) ||
      [];
    return [{ label: spec.label, mine: x ?? a ?? "", theirs: y ?? b ?? "" }];
  });
  return [...shown, ...others(kind, mine, theirs)];
}
