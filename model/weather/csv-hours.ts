import { limitInWords, within } from "../limits.ts";
import { rangeWords } from "./checks.ts";
import { HOUR_MS } from "./clock.ts";
import { type CsvCells, type CsvRow, isMissingNumber, readCell } from "./csv-cells.ts";
import { readIsoTime, utcLabel } from "./labels.ts";
import { COLUMN_LIMITS } from "./limits.ts";
import type { ProblemList } from "./problems.ts";
import type { ColumnName } from "./series.ts";
import { excerpt } from "./shown.ts";

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
  // The row above, as far as its time can be believed: rows in disorder are told against it, not against the latest
  // hour of the file, or one row moved to the top would accuse all others.
  let above: { readonly row: number; readonly utcMs: number } | null = null;
  for (const line of cells.rows) {
    const value = (line.cells[timeIndex] ?? "").trim();
    const at = { row: line.row, column: "startUtc", value, limit: UTC_RULE };
    const time = readIsoTime(value);
    if (time.kind !== "moment") {
      if (time.kind === "no-zone") {
        const why = "has neither Z nor an offset, so it could be any hour of the day";
        problems.error(
          "time-without-zone",
          `row ${line.row}, startUtc: ${excerpt(value)} ${why}; ${UTC_RULE}`,
          at,
        );
      } else {
        problems.error("not-a-time", `row ${line.row}, startUtc: got "${excerpt(value)}", ${UTC_RULE}`, at);
      }
      continue;
    }
    const { utcMs } = time;
    const twin = rowOf.get(utcMs);
    const says = `row ${line.row}, startUtc: got ${value}`;
    let believed = true;
    if (twin !== undefined) {
      problems.error(
        "duplicate-hour",
        `${says}, the same hour as in row ${twin}; each hour must stand once`,
        { ...at, limit: "each hour must stand once" },
      );
    } else if (above !== null && utcMs < above.utcMs) {
      const told = `row ${above.row} above it, ${utcLabel(above.utcMs)}`;
      problems.error("not-increasing", `${says}, earlier than ${told}; sort the rows by time`, {
        ...at,
        limit: `must come after ${told}`,
      });
    } else if (before !== null && utcMs < before.utcMs) {
      // In order with its neighbour, inside a run that stands too late: the run's first row was told.
    } else if (before !== null && (utcMs - before.utcMs) % HOUR_MS !== 0) {
      const limit = `must be ${utcLabel(before.utcMs + HOUR_MS)}, or whole hours after it`;
      problems.error("not-hourly", `${says}, not a whole number of hours after row ${before.row}; ${limit}`, {
        ...at,
        limit,
      });
    } else if (before !== null && utcMs - before.utcMs > LONGEST_GAP_H * HOUR_MS) {
      const days = ((utcMs - before.utcMs) / HOUR_MS / 24).toFixed(0);
      problems.error(
        "gap-too-long",
        `${says}, ${days} days after row ${before.row}; at most 31 days may be missing`,
        { ...at, limit: "at most 31 days may be missing" },
      );
      believed = false;
    } else {
      before = { ...line, utcMs };
      timed.push(before);
    }
    rowOf.set(utcMs, twin ?? line.row);
    if (believed) above = { row: line.row, utcMs };
  }
  return timed;
}

/**
 * Rows with more or fewer cells than the header. A cell that is not there is no empty one: a file cut short looks like
 * that, and so does a column that was pasted in too short.
 */
export function checkWidths(cells: CsvCells, problems: ProblemList): void {
  const width = cells.header.length;
  const total = cells.rows.length;
  /** For each column the first row that ends before it, and how many do. */
  const short = cells.header.map(() => ({ row: 0, cells: 0, count: 0 }));
  for (const { row, cells: line } of cells.rows) {
    const limit = `must have ${width} cells`;
    if (line.slice(width).some((cell) => cell.trim() !== "")) {
      const message = `row ${row}: got ${line.length} cells, ${limit} like the header`;
      problems.error("too-many-cells", message, { row, value: String(line.length), limit });
    }
    for (const column of short.slice(line.length)) {
      if (column.count === 0) Object.assign(column, { row, cells: line.length });
      column.count++;
    }
  }
  short.forEach(({ row, cells: got, count }, index) => {
    const name = cells.header[index] ?? "";
    if (count === 0 || name === "") return;
    const limit = `must have ${width} cells`;
    const message =
      `column ${excerpt(name)}: too short, ${count} of ${total} rows have no cell for it, the first is row ${row} with ${got} ` +
      `cells; each row ${limit} like the header. Leave a missing value empty between its separators`;
    problems.error("too-few-cells", message, { row, column: name, value: String(got), limit });
  });
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
        `row ${line.row}, ${name}: got "${excerpt(text)}", must be a number or empty`,
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
