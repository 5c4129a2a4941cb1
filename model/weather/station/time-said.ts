import type { CsvQuestion } from "../csv-questions.ts";
import type { ProblemList } from "../problems.ts";
import type { StationAnswers } from "./answers.ts";
import { CLOCKS, type ClockOfData, type StationClock, type StationLabel } from "./clock-of-data.ts";
import type { ChosenColumn } from "./columns.ts";
import { isWeatherRole } from "./roles.ts";
import type { DateOrder, WallRow } from "./times.ts";

/** What user and header say of a file's times, and what is asked where neither does. */

export function oneOf<T extends string>(
  id: string,
  answers: StationAnswers,
  known: readonly T[],
  problems: ProblemList,
): T | null {
  const answer = answers[id];
  if (answer === undefined) return null;
  const found = known.find((one) => one === answer);
  if (found === undefined)
    problems.error("unknown-answer", `${id}: got "${answer}", must be one of ${known.join(", ")}`, {
      column: id,
      value: answer,
      limit: known.join(", "),
    });
  return found ?? null;
}

/** The names of the columns that hold the time, in small letters. */
function timeNames(columns: readonly ChosenColumn[]): string[] {
  return columns
    .filter(({ role }) => !isWeatherRole(role) && role !== "ignored")
    .map(({ name }) => name.toLowerCase());
}

export function clockSaid(columns: readonly ChosenColumn[], rows: readonly WallRow[]): StationClock | null {
  if (rows.length > 0 && rows.every(({ utcMs }) => utcMs !== null)) return "utc";
  const names = timeNames(columns);
  if (names.some((name) => /utc|gmt|zulu/.test(name))) return "utc";
  if (columns.some(({ why }) => why.includes("Dutch"))) return "utc";
  if (names.some((name) => /\blst\b|standard|\b[pmce]st\b/.test(name))) return "standard";
  return null;
}

/** The order of day and month that a header such as "Date (MM/DD/YYYY)" gives. */
export function orderSaid(columns: readonly ChosenColumn[]): DateOrder | null {
  const names = columns.filter(({ role }) => role === "date" || role === "dateTime").map(({ name }) => name);
  if (names.some((name) => /mm[/.-]dd/i.test(name))) return "mdy";
  return names.some((name) => /dd[/.-]mm/i.test(name)) ? "dmy" : null;
}

export function labelSaid(columns: readonly ChosenColumn[]): StationLabel | null {
  const names = timeNames(columns);
  if (names.some((name) => /\bend(ing)?\b/.test(name))) return "end";
  if (names.some((name) => /\b(begin(ning)?|start)\b/.test(name))) return "start";
  return null;
}

export function askClock(found: ClockOfData, rows: readonly WallRow[]): CsvQuestion {
  const first = rows[0] ? new Date(rows[0].wallMs).toISOString().slice(0, 16).replace("T", " ") : "";
  return {
    id: "clock",
    column: "time",
    ask: `Which clock wrote the times, as ${first}? The file does not say, and ${found.why}.`,
    choices: [...CLOCKS],
  };
}

export const LABEL_QUESTION: CsvQuestion = {
  id: "label",
  column: "time",
  ask: "Is a row named by the start or the end of the time that it covers, or is it of that moment? The file does not say, and its sun cannot tell.",
  choices: ["start", "end", "instant"],
};
