import { type Issue, limitInWords, within } from "../limits.ts";
import { COLUMN_NAMES, rangeWords } from "./checks.ts";
import { HOUR_MS } from "./clock.ts";
import { type CsvCells, type CsvRow, isMissingNumber, readCell, readCells } from "./csv-cells.ts";
import { readIsoTime, utcLabel } from "./labels.ts";
import { COLUMN_LIMITS, HIGHEST_DEW_POINT_C } from "./limits.ts";
import { prepareWeather } from "./prepare.ts";
import { type CsvProblem, ProblemList } from "./problems.ts";
import type { Attribution, ColumnName, Site, WeatherSeries } from "./series.ts";

/** Files in the canonical column names: what was understood, what is wrong and where, and the series if nothing is. */

export interface CsvPlace {
  readonly site: Site;
  readonly windHeightM: number;
  readonly attribution?: readonly Attribution[] | undefined;
}

/** How one column of the file was read. */
export interface UnderstoodColumn {
  readonly column: string;
  readonly as: string;
  readonly unit: string;
  readonly basis: "header";
}

export interface CsvCounts {
  /** Rows of data in the file. */
  readonly rows: number;
  /** Hours of the series, with those between rows that had none. */
  readonly hours: number;
  /** Hours of which some value will be interpolated. */
  readonly filled: number;
  /** Hours without a row or without some value that is needed. */
  readonly missing: number;
}

export interface CanonicalCsv {
  readonly series: WeatherSeries | null;
  readonly problems: readonly CsvProblem[];
  readonly understood: readonly UnderstoodColumn[];
  readonly counts: CsvCounts;
}

/** A gap longer than this, h, is taken for a wrong date. */
const LONGEST_GAP_H = 31 * 24;

const UTC_RULE =
  "must be a date and time with Z or an offset, such as 2026-07-01T05:00:00Z or 2026-07-01T00:00-05:00";

interface Header {
  readonly time: number;
  readonly columns: ReadonlyMap<ColumnName, number>;
}

function readHeader(cells: CsvCells, problems: ProblemList, understood: UnderstoodColumn[]): Header | null {
  const byName = new Map<string, ColumnName>(COLUMN_NAMES.map((name) => [name.toLowerCase(), name]));
  const columns = new Map<ColumnName, number>();
  let time = -1;
  cells.header.forEach((text, index) => {
    const name = byName.get(text.toLowerCase());
    const isTime = text.toLowerCase() === "startutc";
    if (isTime ? time >= 0 : name !== undefined && columns.has(name)) {
      problems.error("duplicate-column", `column ${text}: stands twice in the header, must stand once`, {
        column: text,
      });
    } else if (isTime) {
      time = index;
      understood.push({ column: text, as: "startUtc", unit: "ISO 8601", basis: "header" });
    } else if (name !== undefined) {
      columns.set(name, index);
      understood.push({ column: text, as: name, unit: COLUMN_LIMITS[name].unit, basis: "header" });
    } else if (text !== "") {
      const known = ["startUtc", ...COLUMN_NAMES].join(", ");
      problems.warn("unknown-column", `column ${text}: not known and left out; known are ${known}`, {
        column: text,
      });
    }
  });
  const absent = [
    ...(time < 0 ? ["startUtc"] : []),
    ...(["airTempC", "windSpeedMps"] as const).filter((name) => !columns.has(name)),
    ...(columns.has("relHumidityPct") || columns.has("dewPointC") ? [] : ["relHumidityPct"]),
    ...(columns.has("solarWm2") || columns.has("cloudPct") ? [] : ["solarWm2 or cloudPct"]),
  ];
  if (absent.length === 0) return { time, columns };
  for (const name of absent) {
    problems.error("missing-column", `column ${name}: not in the header, and it is needed`, { column: name });
  }
  return null;
}

interface TimedRow extends CsvRow {
  readonly utcMs: number;
}

/** The rows with their hours, in the order of the file; rows whose time is faulty are told and left out. */
function readTimes(cells: CsvCells, timeIndex: number, problems: ProblemList): TimedRow[] {
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

function checkWidths(cells: CsvCells, problems: ProblemList): void {
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

function readColumn(
  name: ColumnName,
  index: number,
  timed: readonly TimedRow[],
  delimiter: CsvCells["delimiter"],
  count: number,
  problems: ProblemList,
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
    } else if (within(cell.value, limit)) {
      column[(line.utcMs - start) / HOUR_MS] = cell.value;
    } else if (isMissingNumber(cell.value)) {
      sentinels++;
    } else {
      problems.error("out-of-range", `row ${line.row}, ${name}: ${rangeWords(name, cell.value, limit)}`, at);
    }
  }
  if (sentinels > 0) {
    const message = `column ${name}: ${sentinels} values such as -9999 were read as missing`;
    problems.warn("missing-code", message, { column: name, limit: limitInWords(limit) });
  }
  return column;
}

const AT = /^weather\.(?:hours\.)?([\w.]+?)(?:\[(\d+)\])?$/;

/** An issue of the series in the words of the file: the hour becomes its row, the path its column. */
function addIssue(issue: Issue, timed: readonly TimedRow[], header: Header, problems: ProblemList): void {
  const match = AT.exec(issue.path);
  const column = match?.[1] ?? issue.path;
  const start = timed[0]?.utcMs ?? 0;
  const line =
    match?.[2] === undefined
      ? undefined
      : timed.find((row) => row.utcMs === start + Number(match[2]) * HOUR_MS);
  const index = header.columns.get(column as ColumnName);
  const message = issue.message.startsWith(`${issue.path}: `)
    ? issue.message.slice(issue.path.length + 2)
    : issue.message;
  const where = line === undefined ? column : `row ${line.row}, ${column}`;
  problems.error(issue.code, `${where}: ${message}`, {
    row: line?.row ?? null,
    column,
    value: line === undefined || index === undefined ? null : (line.cells[index] ?? "").trim(),
    limit:
      issue.code === "unit-suspect"
        ? `a dew point of at most ${HIGHEST_DEW_POINT_C} °C`
        : limitOfColumn(column),
  });
}

function limitOfColumn(column: string): string | null {
  return Object.hasOwn(COLUMN_LIMITS, column) ? limitInWords(COLUMN_LIMITS[column as ColumnName]) : null;
}

function toSeries(
  place: CsvPlace,
  timed: readonly TimedRow[],
  columns: ReadonlyMap<ColumnName, (number | null)[]>,
  count: number,
): WeatherSeries {
  const start = timed[0]?.utcMs ?? 0;
  const empty = () => new Array<number | null>(count).fill(null);
  const given = Object.fromEntries(
    [...columns].filter(([, column]) => column.some((value) => value !== null)),
  );
  return {
    site: place.site,
    windHeightM: place.windHeightM,
    origin: "upload",
    provider: null,
    model: null,
    issuedUtc: null,
    fetchedUtc: null,
    nativeStepHours: 1,
    attribution: place.attribution ?? [],
    hours: {
      ...given,
      startUtc: Array.from({ length: count }, (_, i) => utcLabel(start + i * HOUR_MS)),
      airTempC: columns.get("airTempC") ?? empty(),
      relHumidityPct: columns.get("relHumidityPct") ?? empty(),
      windSpeedMps: columns.get("windSpeedMps") ?? empty(),
      rainMm: columns.get("rainMm") ?? empty(),
    },
  };
}

/**
 * Reads a CSV file with the canonical column names. The place and the wind's height come from beside the file.
 *
 * `series` is null as soon as one problem is an error; nothing is dropped or guessed in silence.
 */
export function parseCanonicalCsv(text: string, place: CsvPlace): CanonicalCsv {
  const problems = new ProblemList();
  const understood: UnderstoodColumn[] = [];
  const refuse = (rows: number, hours = 0): CanonicalCsv => ({
    series: null,
    problems: problems.list(),
    understood,
    counts: { rows, hours, filled: 0, missing: 0 },
  });
  const cells = readCells(text);
  if (cells === null) {
    problems.error("empty-file", "The file is empty; it must hold a header and at least one hour");
    return refuse(0);
  }
  const header = readHeader(cells, problems, understood);
  const rows = cells.rows.length;
  if (cells.openQuoteRow !== null) {
    const row = cells.openQuoteRow;
    problems.error("open-quote", `row ${row}: a quotation mark is not closed or stands inside a cell`, {
      row,
    });
  }
  if (rows === 0) problems.error("no-rows", "The file has a header and no hours; it must hold at least one");
  if (header === null || rows === 0 || problems.hasErrors()) return refuse(rows);

  checkWidths(cells, problems);
  const timed = readTimes(cells, header.time, problems);
  const first = timed[0];
  const last = timed.at(-1);
  if (first === undefined || last === undefined) return refuse(rows);
  const count = (last.utcMs - first.utcMs) / HOUR_MS + 1;
  const columns = new Map<ColumnName, (number | null)[]>();
  for (const [name, index] of header.columns) {
    columns.set(name, readColumn(name, index, timed, cells.delimiter, count, problems));
  }
  if (problems.hasErrors()) return refuse(rows, count);

  const series = toSeries(place, timed, columns, count);
  if (count > timed.length) {
    const message = `${count - timed.length} hours between the rows have no row and count as missing`;
    problems.warn("missing-hours", message, { column: "startUtc" });
  }
  const prepared = prepareWeather(series);
  if (!prepared.ok) {
    for (const issue of prepared.issues) addIssue(issue, timed, header, problems);
    return refuse(rows, count);
  }
  for (const warning of prepared.value.warnings) problems.warn("look-at-this", warning);
  const { filledHours: filled, missingHours: missing } = prepared.value;
  return { series, problems: problems.list(), understood, counts: { rows, hours: count, filled, missing } };
}
