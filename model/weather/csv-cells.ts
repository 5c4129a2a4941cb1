import Papa from "papaparse";

/** The text of a file as cells: which sign parts them, what counts as a number, what counts as missing. */

export interface CsvRow {
  /** Line of the file; the header is line 1 unless blank lines stand before it. */
  readonly row: number;
  readonly cells: readonly string[];
}

export interface CsvCells {
  readonly delimiter: "," | ";" | "\t";
  readonly header: readonly string[];
  readonly rows: readonly CsvRow[];
  /** Line of a quotation mark that is never closed, or null. */
  readonly openQuoteRow: number | null;
}

function delimiterOf(headerLine: string): CsvCells["delimiter"] {
  if (headerLine.includes("\t")) return "\t";
  return headerLine.includes(";") ? ";" : ",";
}

/** Splits a file into its header and its rows that are not blank; null when there is nothing in it. */
export function readCells(text: string): CsvCells | null {
  // Files stitched from two machines mix line ends; a parser that settles on one of them would misread the rest.
  const bare = text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
  const headerLine = bare.split("\n").find((line) => line.trim() !== "");
  if (headerLine === undefined) return null;
  const delimiter = delimiterOf(headerLine);
  const parsed = Papa.parse<string[]>(bare, { delimiter, newline: "\n", skipEmptyLines: false });
  const rows: CsvRow[] = [];
  parsed.data.forEach((cells, index) => {
    if (cells.some((cell) => cell.trim() !== "")) rows.push({ row: index + 1, cells });
  });
  const open = parsed.errors.find((error) => error.type === "Quotes");
  const [header, ...body] = rows;
  if (header === undefined) return null;
  return {
    delimiter,
    header: header.cells.map((cell) => cell.trim()),
    rows: body,
    openQuoteRow: open === undefined ? null : (open.row ?? 0) + 1,
  };
}

const MISSING_WORDS = new Set(["", "na", "n/a", "nan", "null", "m", "-", "--", "---", "*"]);

/** Numbers that loggers write for a missing value. They count as such only outside a column's range: 99 % is real. */
const MISSING_NUMBERS = new Set([
  -99, -99.9, -999, -999.9, -9999, -9900, -6999, 99.9, 999, 6999, 7999, 9999, 99999, 999999, 32767, -32768,
  998877,
]);

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

export type CellValue =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "missing" }
  | { readonly kind: "text" };

/** Reads one cell. A decimal comma is read only where the comma does not part the cells. */
export function readCell(cell: string, delimiter: CsvCells["delimiter"]): CellValue {
  const bare = cell.trim();
  if (MISSING_WORDS.has(bare.toLowerCase())) return { kind: "missing" };
  const text = delimiter === "," ? bare : bare.replace(",", ".");
  const value = Number(text);
  // "1e999" has the form of a number and is none that can be held.
  return NUMBER.test(text) && Number.isFinite(value) ? { kind: "number", value } : { kind: "text" };
}

/** True for a number that loggers write when they have no value. */
export function isMissingNumber(value: number): boolean {
  return MISSING_NUMBERS.has(value);
}
