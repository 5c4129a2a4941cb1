/** Nearer than this to an end a chance is told as beyond the last tenth: no forecast is ever that sure, 0-1. */
export const LEAST_CHANCE = 0.05;

/**
 * A chance in tenths: "7"; "<1" and ">9" at the ends, never 0 and never 10, though every draw agrees.
 *
 * @param chance 0-1
 * @throws RangeError outside that
 */
export function tenths(chance: number): string {
  if (!(chance >= 0 && chance <= 1)) throw new RangeError(`tenths: chance must be in [0, 1], got ${chance}`);
  if (chance < LEAST_CHANCE) return "<1";
  if (chance >= 1 - LEAST_CHANCE) return ">9";
  return String(Math.round(10 * chance));
}

function inWords(told: string): string {
  return told.replace("<", "under ").replace(">", "over ");
}

/** The same as people say it: "7 in 10", "under 1 in 10", "over 9 in 10". */
export function inTen(chance: number): string {
  return `${inWords(tenths(chance))} in 10`;
}

/** A chance in whole per cents, for tables: "52"; "<1" and ">99" at the ends. */
export function wholePercent(chance: number): string {
  const percent = Math.round(100 * chance);
  return percent < 1 ? "<1" : percent > 99 ? ">99" : String(percent);
}

/** The same in a sentence: "52 %", "under 1 %", "over 99 %". */
export function chancePercent(chance: number): string {
  return `${inWords(wholePercent(chance))} %`;
}
