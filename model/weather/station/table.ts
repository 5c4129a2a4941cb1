import Papa from "papaparse";
import {
  CODE_FAMILIES,
  type CodeFamily,
  isWeatherRole,
  type Role,
  roleOfName,
  UNIT_KIND_OF,
} from "./roles.ts";
import { type StationUnit, type UnitKind, unitOfKey, unitOfWords } from "./units.ts";

/** A delimited text as a table: which sign parts the cells, which line is the header, where the units stand. */

export type Delimiter = "," | ";" | "\t" | "|" | " ";

export interface TableRow {
  /** Line of the file, counted from 1. */
  readonly row: number;
  readonly cells: readonly string[];
}

export interface TableColumn {
  /** As the file names it; "column 3" where it has no header. */
  readonly name: string;
  readonly role: Role;
  /** Null where neither header nor unit row says it. */
  readonly unit: StationUnit | null;
  /** What stands below the name in the row of units; empty where there is none. */
  readonly unitCell: string;
  /** Why it was read so. */
  readonly why: string;
  readonly codes: CodeFamily | null;
}

export interface Table {
  readonly delimiter: Delimiter;
  /** Line of the header; 0 = the file has none. */
  readonly headerRow: number;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
}

const DELIMITERS: readonly Delimiter[] = ["\t", ";", "|", ","];
const LOOKED_AT = 60;
const NUMERIC = /^[\s+-]*\d*[.,]?\d+(e[+-]?\d+)?\s*$/i;

/** The sign that stands equally often in most of the first lines; columns of spaces where none does. */
function delimiterOf(lines: readonly string[]): Delimiter {
  let best: { readonly delimiter: Delimiter; readonly score: number } = { delimiter: " ", score: 0 };
  for (const delimiter of DELIMITERS) {
    const counts = lines.map((line) => line.split(delimiter).length - 1).filter((count) => count > 0);
    const usual = counts.toSorted((a, b) => a - b)[Math.floor(counts.length / 2)] ?? 0;
    const steady = counts.filter((count) => count === usual).length;
    // A decimal comma makes commas too, but beside another sign that parts the cells.
    const score = counts.length >= lines.length / 2 ? steady * (delimiter === "," ? 1 : 3) : 0;
    if (usual > 0 && score > best.score) best = { delimiter, score };
  }
  return best.delimiter;
}

function splitRows(text: string, delimiter: Delimiter): TableRow[] {
  const rows: TableRow[] = [];
  if (delimiter === " ") {
    text.split("\n").forEach((line, i) => {
      if (line.trim() !== "") rows.push({ row: i + 1, cells: line.trim().split(/\s+/) });
    });
    return rows;
  }
  const parsed = Papa.parse<string[]>(text, { delimiter, newline: "\n", skipEmptyLines: false });
  parsed.data.forEach((cells, i) => {
    if (cells.some((cell) => cell.trim() !== "")) rows.push({ row: i + 1, cells });
  });
  return rows;
}

/** "Air Temp (°F)", "Temp_C", "Wind Speed, mph" -> name and unit. */
export function splitUnit(header: string): { readonly name: string; readonly unit: string } {
  const text = header.trim().replace(/^#\s*/, "");
  const bracket = /^(.*?)\s*[([]([^)\]]*)[)\]]\s*$/.exec(text);
  if (bracket) return { name: bracket[1] ?? "", unit: bracket[2] ?? "" };
  const comma = /^(.*?)\s*,\s*([^,]+)$/.exec(text);
  if (comma) return { name: comma[1] ?? "", unit: comma[2] ?? "" };
  const tail = /^(.*?)[_\s]+([^_\s]+)$/.exec(text);
  if (tail) return { name: tail[1] ?? "", unit: tail[2] ?? "" };
  return { name: text, unit: "" };
}

function familyOf(header: readonly string[]): CodeFamily | null {
  const names = new Set(header.map((cell) => splitUnit(cell).name.toLowerCase().trim()));
  for (const cell of header) names.add(cell.toLowerCase().replace(/^#\s*/, "").trim());
  return CODE_FAMILIES.find(({ needs }) => needs.every((code) => names.has(code))) ?? null;
}

/** The unit that a column's header, or its cell in the row of units, states for a quantity; null where none does. */
export function unitOfHeader(
  kind: UnitKind,
  { name, unitCell }: Pick<TableColumn, "name" | "unitCell">,
): StationUnit | null {
  return unitOfWords(kind, splitUnit(name).unit) ?? unitOfWords(kind, unitCell);
}

type Understood = Omit<TableColumn, "name" | "unitCell">;

function understand(header: string, unitCell: string, family: CodeFamily | null): Understood {
  const bare = header.toLowerCase().replace(/^#\s*/, "").trim();
  const code = family && Object.hasOwn(family.codes, bare) ? family.codes[bare] : undefined;
  if (family && code) {
    const unit = isWeatherRole(code.role) && code.unit ? unitOfKey(UNIT_KIND_OF[code.role], code.unit) : null;
    return { role: code.role, unit, why: family.said, codes: family };
  }
  const whole = roleOfName(header.replace(/[([].*$/, ""));
  const { name, unit: words } = splitUnit(header);
  const role = whole === "ignored" ? roleOfName(name) : whole;
  if (!isWeatherRole(role))
    return { role, unit: null, why: role === "ignored" ? "not known" : "its name", codes: null };
  const found = (kindRole: typeof role) => {
    const kind = UNIT_KIND_OF[kindRole];
    return unitOfWords(kind, words) ?? unitOfWords(kind, unitCell);
  };
  // A rain column whose unit is one of a rate is a rate, whatever it is called; and the other way round.
  if (role === "rainMm" && found("rainRateMmH"))
    return { role: "rainRateMmH", unit: found("rainRateMmH"), why: "its unit is one of a rate", codes: null };
  if (role === "rainRateMmH" && !found("rainRateMmH") && found("rainMm"))
    return { role: "rainMm", unit: found("rainMm"), why: "its unit is one of an amount", codes: null };
  const unit = found(role);
  const why =
    unit === null
      ? "its name"
      : unitOfWords(UNIT_KIND_OF[role], words)
        ? "its name and unit"
        : "its name and the row of units";
  return { role, unit, why, codes: null };
}

const share = (cells: readonly string[], test: (cell: string) => boolean) => {
  const full = cells.filter((cell) => cell.trim() !== "");
  return full.length === 0 ? 0 : full.filter(test).length / full.length;
};

/** How many cells of a line name something that is known. */
function namesIn(cells: readonly string[]): number {
  const family = familyOf(cells);
  return cells.filter((cell) => cell.trim() !== "" && understand(cell, "", family).role !== "ignored").length;
}

/** A row of units below the header: nothing in it is a number, and some of it is a known unit. */
function isUnitRow(cells: readonly string[], header: readonly string[]): boolean {
  if (share(cells, (cell) => NUMERIC.test(cell)) > 0) return false;
  let known = 0;
  cells.forEach((cell, i) => {
    const role = understand(header[i] ?? "", "", null).role;
    if (isWeatherRole(role) && unitOfWords(UNIT_KIND_OF[role], cell)) known += 1;
  });
  return known > 0;
}

/**
 * Finds the header among the first lines, its units in it or in a row below, and the rows. Two header lines, one above
 * the other, are read as one. Null when there is nothing in the text.
 */
export function readTable(text: string): Table | null {
  const bare = text
    .replace(/^\uFEFF/, "")
    .replace(/\r\n?/g, "\n")
    .replace(/\0/g, "");
  const lines = bare.split("\n", LOOKED_AT * 4).filter((line) => line.trim() !== "");
  if (lines.length === 0) return null;
  const delimiter = delimiterOf(lines.slice(0, LOOKED_AT));
  const all = splitRows(bare, delimiter);
  let at = -1;
  let most = 1;
  all.slice(0, LOOKED_AT).forEach(({ cells }, i) => {
    if (share(cells, (cell) => NUMERIC.test(cell)) > 0.34) return;
    const names = namesIn(cells);
    if (names > most) {
      most = names;
      at = i;
    }
  });
  const first = all[at];
  if (first === undefined) {
    const width = Math.max(0, ...all.slice(0, LOOKED_AT).map(({ cells }) => cells.length));
    const columns = Array.from({ length: width }, (_, i) => ({
      name: `column ${i + 1}`,
      role: "ignored" as const,
      unit: null,
      unitCell: "",
      why: "the file has no header",
      codes: null,
    }));
    return { delimiter, headerRow: 0, columns, rows: all };
  }
  let header = first.cells.map((cell) => cell.trim());
  let body = all.slice(at + 1);
  const above = all[at - 1];
  const isWords = (row: TableRow | undefined) =>
    row !== undefined &&
    row.cells.length === header.length &&
    share(row.cells, (cell) => NUMERIC.test(cell)) === 0 &&
    row.row === first.row - 1;
  // "Temp" over "Out", "Wind" over "Speed": the upper line belongs to the names where it is as wide.
  if (above && isWords(above))
    header = header.map((cell, i) => `${(above.cells[i] ?? "").trim()} ${cell}`.trim());
  let units: readonly string[] = [];
  const next = body[0];
  if (next && isUnitRow(next.cells, header)) {
    units = next.cells;
    body = body.slice(1);
  }
  const family = familyOf(header);
  const seen = new Map<string, number>();
  const columns = header.map((cell, i): TableColumn => {
    const plain = cell === "" ? `column ${i + 1}` : cell;
    const count = (seen.get(plain) ?? 0) + 1;
    seen.set(plain, count);
    const unitCell = units[i] ?? "";
    const name = count === 1 ? plain : `${plain} (${count})`;
    return { name, unitCell, ...understand(cell, unitCell, family) };
  });
  // A header that is repeated inside the file is no row of data.
  const text0 = first.cells.join("\u0001");
  return {
    delimiter,
    headerRow: first.row,
    columns,
    rows: body.filter(({ cells }) => cells.join("\u0001") !== text0),
  };
}
