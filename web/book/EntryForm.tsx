import { useEffect, useRef, useState } from "preact/hooks";
import { entryIssues } from "../../model/book/check/check-entry.ts";
import type { Issue } from "../../model/limits.ts";
import { isKnownTimeZone } from "../../model/weather/index.ts";
import type { Manner } from "../format/manner.ts";
import type { ShownKind } from "./book-data.ts";
import { KIND_WORDS } from "./book-words.ts";
import { type Errors, inUnits, readForm, valuesOf } from "./form.ts";
import { FORMS, TOGETHER } from "./forms.ts";
import { besideField, formPath, labelAt } from "./issue-words.ts";
import { formCaution } from "./label-caution.ts";
import type { AnyDoc } from "./queue.ts";
import { type References, SpecFields } from "./SpecFields.tsx";
import { type RefSpec, textOf, type Values } from "./spec.ts";
import { type Names, toldEntry, zoneOf } from "./told-entry.ts";
import type { ShownBook } from "./use-book.ts";
import "./entry-form.css";

/** The choice of a place that the book does not have yet: the one whose weather is shown. */
export const PLACE_SHOWN = "@shown";

export interface EntryFormProps {
  readonly kind: ShownKind;
  readonly title: string;
  /** The document to begin with; of a new entry what is known of it. */
  readonly doc: Partial<AnyDoc>;
  readonly book: ShownBook;
  readonly manner: Manner;
  readonly nowMs: number;
  /** What the server refused of it. */
  readonly issues?: readonly Issue[];
  /** Place of the weather shown, where the book lacks it. */
  readonly placeShown: string | null;
  readonly onSave: (doc: AnyDoc) => void;
  readonly onClose: () => void;
}

/** Issues at the fields of the form. */
function errorsOf(issues: readonly Issue[], manner: Manner): Errors {
  return Object.fromEntries(issues.map((issue) => [formPath(issue.path), besideField(issue, manner)]));
}

function togetherErrors(kind: ShownKind, values: Values): Errors {
  const zone = textOf(values, "timeZone").trim();
  const wrongZone =
    kind === "sites" && zone !== "" && !isKnownTimeZone(zone)
      ? { timeZone: `Got "${zone}", must be a known IANA time zone, as America/Chicago.` }
      : {};
  return { ...wrongZone, ...TOGETHER[kind]?.(values) };
}

/** One entry as a form: what is wrong stands beside its field, and what was typed stays. */
export function EntryForm({
  kind,
  title,
  doc,
  book,
  manner,
  nowMs,
  issues = [],
  placeShown,
  onSave,
  onClose,
}: EntryFormProps) {
  const specs = FORMS[kind];
  const { units, locale } = manner;
  const [start] = useState(() => ({ units, locale, zone: zoneOf(doc as Names, book, manner.zone) }));
  const [shown, setShown] = useState(start);
  const [values, setValues] = useState<Values>(() => valuesOf(specs, doc, start));
  const [errors, setErrors] = useState<Errors>(() => errorsOf(issues, manner));
  const form = useRef<HTMLFormElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  // Times are on the clock of the farm that the form names now: another farm's shows the same moments.
  const ids = {
    fieldId: textOf(values, "fieldId"),
    cutId: textOf(values, "cutId"),
    lotId: textOf(values, "lotId"),
  };
  const zone = zoneOf({ ...ids, siteId: textOf(values, "siteId") }, book, manner.zone);
  const now = { units, locale, zone };
  useEffect(() => {
    if (shown.units === units && shown.locale === locale && shown.zone === zone) return;
    setValues((before) => inUnits(specs, before, shown, now));
    setShown(now);
  }, [units, locale, zone]);

  const references: References = ({ kind: of, path }: RefSpec) => {
    const entries = book[of].map(
      (entry) => [entry.id, toldEntry(of, entry.doc, book, manner).title] as const,
    );
    return path === "siteId" && placeShown !== null
      ? [...entries, [PLACE_SHOWN, `The weather shown: ${placeShown}`] as const]
      : entries;
  };
  // What was wrong with an older entry stops no other change of it; what was refused is not sent again as it was.
  const before = issues.length > 0 ? undefined : (doc as unknown as never);
  const save = (event: Event) => {
    event.preventDefault();
    const read = readForm(specs, values, doc as Readonly<Record<string, unknown>>, now);
    const together = read.doc === null ? [] : entryIssues(kind, read.doc as unknown as never, nowMs, before);
    const found = {
      ...togetherErrors(kind, values),
      ...errorsOf(together, { ...manner, zone }),
      ...read.errors,
    };
    setErrors(found);
    if (read.doc !== null && Object.keys(found).length === 0) {
      onSave(read.doc as unknown as AnyDoc);
      return;
    }
    // Only on sending: the first field that is wrong has the keyboard.
    requestAnimationFrame(() =>
      form.current?.querySelector<HTMLElement>(".wrong :is(input, select, textarea)")?.focus(),
    );
  };
  const unplaced = Object.entries(errors).filter(([path]) => labelAt(kind, path) === null);
  const count = Object.keys(errors).length;
  const caution = formCaution(kind, values, book, { ...manner, zone });
  return (
    <form ref={form} class="book-form" aria-label={title} onSubmit={save} noValidate>
      <h3 ref={heading} tabIndex={-1}>
        {title}
      </h3>
      <p class="hint">Times are on the clock of {zone}. What is left empty is not known.</p>
      <div class="book-buttons" role="status">
        {count > 0 ? (
          <p class="book-wrong">
            {count === 1 ? "One field needs" : `${count} fields need`} mending; nothing was changed.
            {unplaced.map(([, text]) => ` ${text}`)}
          </p>
        ) : null}
      </div>
      <SpecFields
        specs={specs}
        values={values}
        errors={errors}
        manner={now}
        references={references}
        onValues={setValues}
      />
      <p class="book-wrong" role="status">
        {caution}
      </p>
      <div class="book-buttons">
        <button type="submit" class="main">
          Keep this {KIND_WORDS[kind].one}
        </button>
        <button type="button" class="aid" onClick={onClose}>
          Close without keeping
        </button>
      </div>
    </form>
  );
}
