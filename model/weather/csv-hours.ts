import { limitInWords, within } from "../limits.ts";
import { rangeWords } from "./checks.ts";
import { HOUR_MS } from "./clock.ts";
import { type CsvCells, type CsvRow, isMissingNumber, readCell } from "./csv-cells.ts";
import { readIsoTime, utcLabel } from "./labels.ts";
import { COLUMN_LIMITS } from "./limits.ts";
import type { ProblemList } from "./problems.ts";
import type { ColumnName } from "./series.ts";

/** The rows of a canonical file: their hours, their widths, the values of a column. */

/** A gap longer than this, h, is taken for a wrong date. */
const LONGEST_GAP_H = 31 * 24;

const UTC_RULE =
  "must be a date and time with Z or an offset, such as 2026-07-01T05:00:00Z or 2026-07-01T00:00-05:00";

/** A row whose time was read and stands in order. */
export interface TimedRow extends CsvRow {
  readonly utcMs: number;
}

/** The rows with their hours, in the order of the file; rows whose time is faulty are told and left out. */
export function readTimes(cells: CsvCells, timeIndex: number, problems: ProblemList): TimedRow[] {
  const timed: TimedRow[] = [];
  const rowOf = new Map<number, number>();
  let before: TimedRow | null = null;
  for (const line of cells.rows) {
    const value = (line.cells[timeIndex] ?? "").trim();
    const at = { row: line.row, column: "startUtc", value, limit: UTC_RULE };
    const time = readIsoTime(value);
    if (time.kind !== "moment") {
      if (time.kind === "no-zone") {
        const why = "has neither Z nor an offset, so it could be any hour of the day";
        problems.error("time-without-zone", `row ${line.row}, startUtc: ${value} ${why}; ${UTC_RULE}`, at);
      } else {
        problems.error("not-a-time", `row ${line.row}, startUtc: got "${value}", ${UTC_RULE}`, at);
      }
      continue;
    }
    const { utcMs } = time;
    const twin = rowOf.get(utcMs);
    const limit =
      before === null ? "" : `must be ${utcLabel(before.utcMs + HOUR_MS)}, or whole hours after it`;
    const here = { ...at, limit };
    const says = `row ${line.row}, startUtc: got ${value}`;
    if (twin !== undefined) {
      problems.error(
        "duplicate-hour",
        `${says}, the same hour as in row ${twin}; each hour must stand once`,
        here,
      );
    } else if (before !== null && utcMs < before.utcMs) {
      problems.error(
        "not-increasing",
        `${says}, earlier than row ${before.row}; sort the rows by time`,
        here,
      );
    } else if (before !== null && (utcMs - before.utcMs) % HOUR_MS !== 0) {
      problems.error(
        "not-hourly",
        `${says}, not a whole number of hours after row ${before.row}; ${limit}`,
        here,
      );
    } else if (before !== null && utcMs - before.utcMs > LONGEST_GAP_H * HOUR_MS) {
      const days = ((utcMs - before.utcMs) / HOUR_MS / 24).toFixed(0);
      problems.error(
        "gap-too-long",
        `${says}, ${days} days after row ${before.row}; at most 31 days may be missing`,
        here,
      );
    } else {
      before = { ...line, utcMs };
      timed.push(before);
    }
    rowOf.set(utcMs, twin ?? line.row);
  }
  return timed;
}

/** Rows with more or fewer cells than the header. */
export function checkWidths(cells: CsvCells, problems: ProblemList): void {
  const width = cells.header.length;
  for (const { row, cells: line } of cells.rows) {
    const limit = `must have ${width} cells`;
    if (line.slice(width).some((cell) => cell.trim() !== "")) {
      const message = `row ${row}: got ${line.length} cells, ${limit} like the header`;
      problems.error("too-many-cells", message, { row, value: String(line.length), limit });
    } else if (line.length < width) {
      const message = `row ${row}: got ${line.length} cells, ${limit} like the header; those missing count as empty`;
      problems.warn("too-few-cells", message, { row, value: String(line.length), limit });
    }
  }
}

/** One column as hourly values; hours without a row, and missing cells, are null. */
export function readColumn(
  name: ColumnName,
  index: number,
  timed: readonly TimedRow[],
  delimiter: CsvCells["delimiter"],
  count: number,
  problems: ProblemList,
  toUnit: (value: number) => number = (value) => value,
): (number | null)[] {
  const column = new Array<number | null>(count).fill(null);
  const limit = COLUMN_LIMITS[name];
  const start = timed[0]?.utcMs ?? 0;
  let sentinels = 0;
  for (const line of timed) {
    const text = (line.cells[index] ?? "").trim();
    const cell = readCell(text, delimiter);
    if (cell.kind === "missing") continue;
    const at = { row: line.row, column: name, value: text, limit: limitInWords(limit) };
    if (cell.kind === "text") {
      problems.error(
        "not-a-number",
        `row ${line.row}, ${name}: got "${text}", must be a number or empty`,
        at,
      );
    } else if (within(toUnit(cell.value), limit)) {
      column[(line.utcMs - start) / HOUR_MS] = toUnit(cell.value);
    } else if (isMissingNumber(cell.value)) {
      sentinels++;
    } else {
      problems.error(
        "out-of-range",
        `row ${line.row}, ${name}: ${rangeWords(name, toUnit(cell.value), limit)}`,
        at,
      );
    }
  }
  if (sentinels > 0) {
    const message = `column ${name}: ${sentinels} values such as -9999 were read as missing`;
    problems.warn("missing-code", message, { column: name, limit: limitInWords(limit) });
  }
  return column;
}
