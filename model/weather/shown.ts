import { type Limit, within } from "../limits.ts";

/** Values as messages show them. */

/**
 * A value with at most two decimals: a converted one carries rounding noise that nobody wrote. Where the rounded value
 * would no longer break the limit that the message is about, it is shown as it is.
 */
export function shown(value: number, limit?: Limit): string {
  const rounded = Number(value.toFixed(2));
  const hidesFault = limit !== undefined && within(rounded, limit) !== within(value, limit);
  return String(hidesFault || !Number.isFinite(value) ? value : rounded);
}

/** Text from a file without what no screen can show: each run of control signs becomes one middle dot. */
export function cleaned(text: string): string {
  return text.replace(/[\p{Cc}\p{Cn}\p{Co}\p{Cs}\uFFFD]+/gu, "·");
}

/** A cell or a name from a file as a message can carry it: clean, and short. */
export function excerpt(text: string, most = 60): string {
  const clean = cleaned(text);
  return clean.length <= most ? clean : `${clean.slice(0, most - 3)}...`;
}
