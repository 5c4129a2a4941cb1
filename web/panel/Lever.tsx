import { useId } from "preact/hooks";
import "./lever.css";

export interface LeverProps<T extends string> {
  readonly label: string;
  /** What it does, in a word or three. */
  readonly does?: string | undefined;
  /** Null where what stands is none of the choices. */
  readonly value: T | null;
  readonly choices: readonly (readonly [T, string])[];
  readonly onChoice: (value: T) => void;
  /** What each choice brings, where it is known: said with the choice before it is made. */
  readonly effects?: Readonly<Partial<Record<T, string>>> | undefined;
  readonly disabled?: boolean;
}

/** All choices side by side, the chosen one black: a radio group. */
export function Lever<T extends string>(props: LeverProps<T>) {
  const { label, does, value, choices, onChoice, effects, disabled = false } = props;
  const name = useId();
  return (
    <fieldset class="lever" disabled={disabled}>
      <legend>
        {label}
        {does ? <span class="does"> {does}</span> : null}
      </legend>
      <div class="lever-choices">
        {choices.map(([key, text]) => {
          const effect = effects?.[key];
          return (
            <label key={key} class={key === value ? "chosen" : ""}>
              <input type="radio" name={name} checked={key === value} onChange={() => onChoice(key)} />
              <span>
                {text}
                {effect ? <span class="hidden">, {effect}</span> : null}
              </span>
            </label>
          );
        })}
      </div>
    </fieldset>
  );
}
