import { LEAST_DAYS } from "../../model/odds/confidence.ts";
import { sentenceCase } from "../format/words.ts";

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Whose record: what this device met itself, or all that the book knows. */
export const RECORDS = ["book", "device"] as const;
export type RecordKey = (typeof RECORDS)[number];

const NOTHING: Readonly<Record<RecordKey, string>> = {
  device:
    "No forecast has met a reading on this device yet. Take a reading of a swath under a forecast, and it is scored here.",
  book: "Nothing in the book can be scored yet. Keep a field and its cut in the book, look at its forecast, and log readings and work: then it is scored here.",
};

/** What the record is of, and whether it says anything yet. */
export function recordSentence(
  { moisture, chances, days }: { readonly moisture: number; readonly chances: number; readonly days: number },
  of: RecordKey,
): string {
  if (moisture + chances === 0) return NOTHING[of];
  const met =
    moisture > 0 || of === "device" ? [`${counted(moisture, "forecast", "forecasts")} met a reading`] : [];
  const told =
    of === "book" && chances > 0
      ? [`of ${counted(chances, "told window", "told windows")} it is known whether it came`]
      : [];
  const said = sentenceCase([...met, ...told].join(", and "));
  return days < LEAST_DAYS
    ? `${said}: too few to say, ${days} of ${LEAST_DAYS} days.`
    : `${said}, on ${days} days.`;
}
