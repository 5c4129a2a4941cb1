import type { HazardCode } from "./calendar.ts";

/** What each wait or caution is for, short enough to stand in a sentence. */
export const HAZARD_WORDS: Readonly<Record<HazardCode, string>> = {
  "nitrate-after-rain": "nitrate after rain on a dry crop",
  "nitrate-after-rain-late": "nitrate after rain on a dry crop",
  "nitrate-after-frost": "nitrate after frost",
  "nitrate-dull": "nitrate after dull days",
  "prussic-after-frost": "prussic acid after frost",
  "prussic-regrowth": "prussic acid in new growth",
  "prussic-short": "prussic acid in short growth",
  "soil-too-wet": "soft soil",
};

interface Waited {
  readonly code: HazardCode;
  readonly level: "wait" | "caution";
  readonly untilUtc: string;
}

/**
 * The waits that a cut lies in, each with its end: "nitrate after rain on a dry crop, until Sunday 28 Jun 21:00"; "" where it
 * lies in none.
 *
 * @param endUtc the weather's end: what is counted as far as that may last longer
 */
export function waitList(
  hazards: readonly Waited[],
  endUtc: string,
  when: (untilUtc: string) => string,
): string {
  const latest = new Map<string, string>();
  for (const { code, level, untilUtc } of hazards) {
    if (level !== "wait") continue;
    const words = HAZARD_WORDS[code];
    const other = latest.get(words);
    if (other === undefined || Date.parse(other) < Date.parse(untilUtc)) latest.set(words, untilUtc);
  }
  return [...latest]
    .map(([words, untilUtc]) =>
      Date.parse(untilUtc) >= Date.parse(endUtc)
        ? `${words}, past this weather`
        : `${words}, until ${when(untilUtc)}`,
    )
    .join("; ");
}
