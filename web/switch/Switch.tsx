import { useId } from "preact/hooks";
import "./switch.css";

export interface SwitchProps<T extends string> {
  /** Heard, not seen: the choices speak for themselves. */
  readonly legend: string;
  readonly value: T;
  readonly choices: readonly T[];
  /** What each choice is called, and what it means for whoever rests on it. */
  readonly said: Readonly<Record<T, { readonly label: string; readonly of: string }>>;
  readonly onChoice: (value: T) => void;
}

/** A few choices of the whole page side by side, the chosen one black. */
export function Switch<T extends string>({ legend, value, choices, said, onChoice }: SwitchProps<T>) {
  const name = useId();
  return (
    <fieldset class="switch">
      <legend class="hidden">{legend}</legend>
      {choices.map((each) => (
        <label key={each} title={said[each].of}>
          <input
            type="radio"
            name={name}
            value={each}
            checked={value === each}
            onChange={() => onChoice(each)}
          />
          <span>{said[each].label}</span>
        </label>
      ))}
    </fieldset>
  );
}
