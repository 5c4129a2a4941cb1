import "./panel.css";
import type { ComponentChildren } from "preact";
import { useId, useState } from "preact/hooks";
import type { Limit } from "../../model/limits.ts";
import { limitWords } from "../state/numbers.ts";
import { afterPress } from "./after-press.ts";

/** "0 to 100 cm", "above 0 to 30 t/ha": the range in the words of a hint. */
export function rangeHint(limit: Limit, locale = "en"): string {
  const words = limitWords(limit, locale);
  return words.replace("must be at least ", "").replace("must be ", "").replace(" and at most ", " to ");
}

export interface TextFieldProps {
  readonly label: string;
  readonly unit?: string | undefined;
  readonly hint?: string | undefined;
  readonly value: string;
  readonly error: string | undefined;
  /** What is to be told beside a value that is right. */
  readonly note?: string | undefined;
  readonly onText: (text: string) => void;
  readonly numeric?: boolean;
  readonly list?: string;
  readonly placeholder?: string | undefined;
  /** How the text reads while nobody types in it: a time on the reader's clock. */
  readonly display?: ((text: string) => string) | undefined;
  readonly onLeave?: ((text: string) => void) | undefined;
  /** Told what is pasted; true where that was all to be done with it. */
  readonly onPasted?: ((text: string) => boolean) | undefined;
  /** An empty field says nothing before it has been left. */
  readonly quietWhileNew?: boolean;
}

export function ErrorText({ id, text }: { readonly id: string; readonly text: string }) {
  return (
    <p class="field-error" id={id}>
      <svg class="triangle" viewBox="0 0 16 14" aria-hidden="true">
        <path d="M8 1 15 13H1z" />
        <path class="mark" d="M8 5v4M8 10.500v1.200" />
      </svg>
      <span>{text}</span>
    </p>
  );
}

/** One typed value. What was typed stays as it is; what is wrong with it stands below it. */
export function TextField(props: TextFieldProps) {
  const { label, unit, hint, value, onText, numeric = true, list, placeholder, display } = props;
  const id = useId();
  const [typing, setTyping] = useState(false);
  const [left, setLeft] = useState(false);
  const error = props.quietWhileNew && value === "" && !left ? undefined : props.error;
  const hintId = `${id}-hint`;
  const errorId = `${id}-error`;
  const noteId = `${id}-note`;
  const note = error === undefined ? props.note : undefined;
  const described = [hint ? hintId : "", error ? errorId : "", note ? noteId : ""].filter(Boolean).join(" ");
  return (
    <div class={error ? "field wrong" : "field"}>
      <label for={id}>
        {label}
        {unit ? <span class="unit">, {unit}</span> : null}
      </label>
      <input
        id={id}
        type="text"
        inputMode={numeric ? "decimal" : "text"}
        autoComplete="off"
        spellcheck={false}
        list={list}
        placeholder={placeholder}
        value={typing || !display ? value : display(value)}
        aria-invalid={error ? "true" : undefined}
        aria-describedby={described || undefined}
        onInput={(event) => {
          setTyping(true);
          onText(event.currentTarget.value);
        }}
        onBlur={(event) => {
          const left = event.currentTarget.value;
          setTyping(false);
          afterPress(() => {
            setLeft(true);
            props.onLeave?.(left);
          });
        }}
        onPaste={(event) => {
          if (props.onPasted?.(event.clipboardData?.getData("text") ?? "")) event.preventDefault();
        }}
      />
      {hint ? (
        <p class="hint" id={hintId}>
          {hint}
        </p>
      ) : null}
      {error ? <ErrorText id={errorId} text={error} /> : null}
      {note ? <ErrorText id={noteId} text={note} /> : null}
    </div>
  );
}

export interface SelectFieldProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly (readonly [T, string])[];
  readonly onChoice: (value: T) => void;
  readonly hint?: string;
}

export function SelectField<T extends string>(props: SelectFieldProps<T>) {
  const { label, value, choices, onChoice, hint } = props;
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={hint ? `${id}-hint` : undefined}
        onChange={(event) => {
          const picked = choices.find(([key]) => key === event.currentTarget.value);
          if (picked) onChoice(picked[0]);
        }}
      >
        {choices.map(([key, text]) => (
          <option key={key} value={key} selected={key === value}>
            {text}
          </option>
        ))}
      </select>
      {hint ? (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
    </div>
  );
}

export function Group({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  return (
    <section class="group">
      <h3>{title}</h3>
      {children}
    </section>
  );
}
