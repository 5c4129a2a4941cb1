import Papa from "papaparse";

/** What a spreadsheet would run as a formula, spaces before it or not; a leading apostrophe keeps it text. */
const FORMULA = /^\s*[=+\-@|%]|^[\t\r\n]/;

type Cell = string | number | null | undefined;

/** A table for a spreadsheet, RFC 4180: CRLF after each row, quotes doubled, a missing value is empty, no cell runs as a formula. */
export function csvTable(columns: readonly string[], rows: readonly (readonly Cell[])[]): string {
  // Guarded here: the library's own guard misses a formula with a new line in it.
  const guarded = rows.map((row) =>
    row.map((cell) => (typeof cell === "string" && FORMULA.test(cell) ? `'${cell}` : (cell ?? ""))),
  );
  return `${Papa.unparse([[...columns], ...guarded], { newline: "\r\n" })}\r\n`;
}
