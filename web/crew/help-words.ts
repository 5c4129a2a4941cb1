import type { HelpfulChange } from "../../model/crew/index.ts";
import { type Manner, numberText } from "../format/manner.ts";

/** The one change that would help most, its gain as the reader writes numbers. */
export function helpWords({ text, gain }: HelpfulChange, manner: Pick<Manner, "locale">): string {
  return text.replace(/(brings|worth) \d+ more/, `$1 ${numberText(gain, 0, manner)} more`);
}
