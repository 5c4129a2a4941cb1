/** What can be said of a station's file: question or correction -> answer. */
export type StationAnswers = Readonly<Record<string, string | undefined>>;

/** Corrections of one column: what it is, and its unit. */
export const AS = "as.";
export const UNIT = "unit.";
/** The answer to "which column holds ...". */
export const COLUMN = "column.";

/** Names under which something can be said of a station's file: its dates, its clock, or one of its columns. */
export function isStationAnswer(id: string): boolean {
  return (
    ["dateOrder", "clock", "label"].includes(id) ||
    [AS, UNIT, COLUMN].some((head) => id.startsWith(head) && id.length > head.length)
  );
}
