import type { HelpfulChange } from "../../model/crew/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { farmWords } from "./farm-words.ts";

/** The one change that would help most, its gain as the reader writes numbers. */
export function helpWords({ text, gain }: HelpfulChange, manner: Manner): string {
  return farmWords(text, manner).replace(
    /(brings?|worth) \d+ more/,
    `$1 ${numberText(gain, 0, manner)} more`,
  );
}
