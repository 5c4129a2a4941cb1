import { NAME_LENGTH } from "../../model/limits.ts";
import { numberText } from "../format/manner.ts";

/** What is wrong with the length of a name or a note; undefined where nothing is. */
export function lengthError(text: string, locale = "en", most: number = NAME_LENGTH): string | undefined {
  return text.length > most
    ? `Got ${numberText(text.length, 0, { locale })} characters, must be at most ${most}.`
    : undefined;
}
