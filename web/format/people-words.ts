import { COLUMN_WORDS } from "../../model/weather/telling.ts";
import { type Clock, fullText } from "./farm-time.ts";

const UTC_TIME = /\b\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?Z\b/g;
const COLUMN = new RegExp(
  `\\b(?:weather\\.hours\\.)?(${Object.keys(COLUMN_WORDS).join("|")})(\\[\\d+\\])?`,
  "g",
);

/**
 * A sentence of the model or the server as people read it: moments on the farm's clock, columns by what they hold.
 *
 * @param named a column that the reader's own file calls so: it keeps its name
 */
export function peoplesWords(text: string, clock: Clock, named: string | null = null): string {
  return text
    .replace(UTC_TIME, (utc) => fullText(utc, clock))
    .replace(COLUMN, (whole, key: string) => (key === named ? whole : (COLUMN_WORDS[key] ?? whole)));
}
