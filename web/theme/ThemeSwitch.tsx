import type { Theme } from "../state/state.ts";
import { Switch } from "../switch/Switch.tsx";
import { THEMES } from "./preferences.ts";

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
  return <Switch legend="Light" value={theme} choices={THEMES} said={SAID} onChoice={onTheme} />;
}
