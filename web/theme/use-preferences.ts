import { useEffect, useRef } from "preact/hooks";
import type { Preferences } from "../state/state.ts";
import { applyTheme } from "./apply-theme.ts";
import { keepPreferences } from "./preferences.ts";

/** Keeps what is chosen on this device, and the page in its theme. */
export function usePreferences(preferences: Preferences): void {
  const { units, theme, draws } = preferences;
  const first = useRef(true);
  useEffect(() => {
    // What was only guessed from the language is not kept: another language may be chosen before anything else is.
    if (!first.current) keepPreferences({ units, theme, draws });
    first.current = false;
  }, [units, theme, draws]);
  useEffect(() => {
    applyTheme(theme);
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const follow = () => applyTheme(theme);
    dark.addEventListener("change", follow);
    return () => dark.removeEventListener("change", follow);
  }, [theme]);
}
