import { useId } from "preact/hooks";
import { ErrorText, rangeHint, SelectField, TextField } from "../panel/Field.tsx";
import { type Errors, emptyItem, type FormManner, limitOf, numberUnit } from "./form.ts";
import {
  itemsOf,
  type ListSpec,
  type NumberSpec,
  type OneSpec,
  type Spec,
  textOf,
  type Values,
} from "./spec.ts";

/** Entries that a form may name, as [id, title]. */
export type References = (spec: Extract<OneSpec, { type: "ref" }>) => readonly (readonly [string, string])[];

interface FieldsProps {
  readonly specs: readonly Spec[];
  readonly values: Values;
  readonly errors: Errors;
  /** What stands before the paths of these fields: "sprays[0]." */
  readonly at?: string;
  readonly manner: FormManner;
  readonly references: References;
  /** Told how the values change, not what they were: two fields may be filled before either is drawn anew. */
  readonly onValues: (change: (values: Values) => Values) => void;
}

interface OneProps<S extends OneSpec> {
  readonly spec: S;
  readonly text: string;
  readonly error: string | undefined;
  readonly onText: (text: string) => void;
}

function Chosen({
  spec,
  text,
  error,
  onText,
  choices,
}: OneProps<OneSpec> & { readonly choices: readonly (readonly [string, string])[] }) {
  const id = useId();
  const first = text === "" || !spec.needed ? [["", spec.needed ? "Choose" : "not known"] as const] : [];
  // What the list lacks stays what it was: an entry that is gone, a word of a newer version.
  const there = text === "" || choices.some(([key]) => key === text);
  const strange = there ? [] : [[text, `${text} (not in the list)`] as const];
  return (
    <div class={error ? "book-choice wrong" : "book-choice"}>
      <SelectField
        label={spec.label}
        value={text}
        choices={[...first, ...strange, ...choices]}
        {...(spec.hint === undefined ? {} : { hint: spec.hint })}
        onChoice={onText}
      />
      {error ? <ErrorText id={`${id}-error`} text={error} /> : null}
    </div>
  );
}

function TimeField({ spec, text, error, onText }: OneProps<OneSpec>) {
  const id = useId();
  return (
    <div class={error ? "field wrong" : "field"}>
      <label for={id}>{spec.label}</label>
      <input
        id={id}
        type="datetime-local"
        value={text}
        aria-invalid={error ? "true" : undefined}
        aria-describedby={error ? `${id}-error` : spec.hint ? `${id}-hint` : undefined}
        onInput={({ currentTarget }) => onText(currentTarget.value)}
      />
      {spec.hint ? (
        <p class="hint" id={`${id}-hint`}>
          {spec.hint}
        </p>
      ) : null}
      {error ? <ErrorText id={`${id}-error`} text={error} /> : null}
    </div>
  );
}

function NoteField({ spec, text, error, onText }: OneProps<OneSpec>) {
  const id = useId();
  return (
    <div class={error ? "field wrong book-note" : "field book-note"}>
      <label for={id}>{spec.label}</label>
      <textarea
        id={id}
        rows={3}
        value={text}
        aria-invalid={error ? "true" : undefined}
        aria-describedby={error ? `${id}-error` : undefined}
        onInput={({ currentTarget }) => onText(currentTarget.value)}
      />
      {error ? <ErrorText id={`${id}-error`} text={error} /> : null}
    </div>
  );
}

function FlagField({ spec, text, onText }: OneProps<OneSpec>) {
  return (
    <label class="check">
      <input type="checkbox" checked={text === "yes"} onChange={() => onText(text === "yes" ? "" : "yes")} />
      {spec.label}
    </label>
  );
}

/** The range of a number without its unit, which stands in the label. */
function numberHint(spec: NumberSpec, manner: FormManner): string {
  const range = rangeHint({ ...limitOf(spec, manner.units), unit: "" }, manner.locale).trim();
  return spec.hint ? `${spec.hint}; ${range}` : range;
}

function One(props: OneProps<OneSpec> & Pick<FieldsProps, "manner" | "references">) {
  const { spec, text, error, onText, manner, references } = props;
  switch (spec.type) {
    case "id":
      return null;
    case "choice":
      return <Chosen {...props} choices={spec.choices} />;
    case "ref":
      return <Chosen {...props} choices={references(spec)} />;
    case "range":
      return <Chosen {...props} choices={spec.ranges.map(({ says }, i) => [String(i), says] as const)} />;
    case "time":
      return <TimeField {...props} />;
    case "note":
      return <NoteField {...props} />;
    case "flag":
      return <FlagField {...props} />;
    case "number":
      return (
        <TextField
          label={spec.label}
          unit={numberUnit(spec, manner)}
          hint={numberHint(spec, manner)}
          value={text}
          error={error}
          onText={onText}
        />
      );
    case "text":
    case "clock":
      return (
        <TextField
          label={spec.label}
          numeric={false}
          hint={spec.hint}
          value={text}
          error={error}
          onText={onText}
        />
      );
  }
}

function ListFields({
  spec,
  items,
  ...rest
}: Omit<FieldsProps, "specs" | "values" | "onValues"> & {
  readonly spec: ListSpec;
  readonly items: readonly Values[];
  readonly onItems: (change: (items: readonly Values[]) => readonly Values[]) => void;
}) {
  const { errors, at = "", onItems } = rest;
  const error = errors[`${at}${spec.path}`];
  return (
    <fieldset class="book-list">
      <legend>{spec.label}</legend>
      {items.map((item, i) => (
        <div class="book-item" key={`${items.length} ${textOf(item, "id")} ${String(i)}`}>
          <SpecFields
            specs={spec.item}
            values={item}
            errors={errors}
            at={`${at}${spec.path}[${i}].`}
            manner={rest.manner}
            references={rest.references}
            onValues={(change) => onItems((now) => now.map((one, j) => (j === i ? change(one) : one)))}
          />
          <button type="button" class="aid" onClick={() => onItems((now) => now.filter((_, j) => j !== i))}>
            Take out this {spec.one}
          </button>
        </div>
      ))}
      <button type="button" class="aid" onClick={() => onItems((now) => [...now, emptyItem(spec.item)])}>
        Add {/^[aeiou]/.test(spec.one) ? "an" : "a"} {spec.one}
      </button>
      {error ? <ErrorText id={`${spec.path}-error`} text={error} /> : null}
    </fieldset>
  );
}

/** The fields of a form; what is wrong with one stands below it. */
export function SpecFields({ specs, values, errors, at = "", manner, references, onValues }: FieldsProps) {
  return (
    <div class="book-fields">
      {specs.map((spec) => {
        const set = (value: string) => onValues((now) => ({ ...now, [spec.path]: value }));
        if (spec.type === "list")
          return (
            <ListFields
              key={spec.path}
              spec={spec}
              items={itemsOf(values, spec.path)}
              errors={errors}
              at={at}
              manner={manner}
              references={references}
              onItems={(change) =>
                onValues((now) => ({ ...now, [spec.path]: change(itemsOf(now, spec.path)) }))
              }
            />
          );
        if (spec.when && !spec.when(values)) return null;
        return (
          <One
            key={spec.path}
            spec={spec}
            text={textOf(values, spec.path)}
            error={errors[`${at}${spec.path}`]}
            onText={set}
            manner={manner}
            references={references}
          />
        );
      })}
    </div>
  );
}
