import { UNIT_SYSTEMS, type Units } from "../format/units.ts";
import type { Preferences, Theme } from "../state/state.ts";

export const THEMES: readonly Theme[] = ["system", "day", "night"];

/** What is read and written of a storage. */
export type TextStore = Pick<Storage, "getItem" | "setItem">;

/** Fewer draws than the first are no chances; as many as the second are taken anyway. */
const DRAWS = [5, 51] as const;

const KEY = "swathclock.preferences";

/** Countries that weigh and measure in US customary units. */
const US_LOCALE = /^[a-z]{2,3}(-[a-z]{4})?-(us|lr|pr)\b/i;

export function unitsOfLocale(locale: string): Units {
  return US_LOCALE.test(locale) ? "us" : "metric";
}

function record(text: string | null): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(text ?? "");
    return typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}

/** The device's storage, or null where the browser denies it: even to ask can throw. */
export function deviceStore(): TextStore | null {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
}

function isFew(draws: unknown): draws is number {
  return typeof draws === "number" && Number.isInteger(draws) && draws >= DRAWS[0] && draws < DRAWS[1];
}

/** What this device was set to; what it was not, by the language of its browser. */
export function readPreferences(locale: string, store: TextStore | null = deviceStore()): Preferences {
  let text: string | null = null;
  try {
    text = store?.getItem(KEY) ?? null;
  } catch {
    // A storage that cannot be read is as an empty one.
  }
  const { units, theme, draws } = record(text);
  return {
    units: UNIT_SYSTEMS.find((known) => known === units) ?? unitsOfLocale(locale),
    theme: THEMES.find((known) => known === theme) ?? "system",
    ...(isFew(draws) ? { draws } : {}),
  };
}

/** Keeps them for the next visit; false where the device lets nothing be kept. */
export function keepPreferences(
  { units, theme, draws }: Preferences,
  store: TextStore | null = deviceStore(),
): boolean {
  try {
    store?.setItem(KEY, JSON.stringify({ units, theme, draws }));
    return store !== null;
  } catch {
    return false;
  }
}
