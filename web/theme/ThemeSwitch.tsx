import { useId } from "preact/hooks";
import type { Theme } from "../state/state.ts";
import { THEMES } from "./preferences.ts";
import "./theme-switch.css";

const SAID: Readonly<Record<Theme, { readonly label: string; readonly of: string }>> = {
  system: { label: "Auto", of: "as this device says" },
  day: { label: "Day", of: "light ground, for sunlight" },
  night: { label: "Night", of: "dark ground, for the cab" },
};

/** Light or dark, kept by the device. */
export function ThemeSwitch({
  theme,
  onTheme,
}: {
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
}) {
  const name = useId();
  return (
    <fieldset class="theme-switch">
      <legend>Light</legend>
      {THEMES.map((each) => (
        <label key={each} title={SAID[each].of}>
          <input
            type="radio"
            name={name}
            value={each}
            checked={theme === each}
            onChange={() => onTheme(each)}
          />
          <span>{SAID[each].label}</span>
        </label>
      ))}
    </fieldset>
  );
}
