import { type Issue, limitInWords } from "../limits.ts";
import { HOUR_MS } from "./clock.ts";
import { readCells } from "./csv-cells.ts";
import { type CsvHeader, readHeader, type UnderstoodColumn } from "./csv-header.ts";
import { checkWidths, readColumn, readTimes, type TimedRow } from "./csv-hours.ts";
import {
  askRainColumn,
  askTemperatureUnit,
  type CsvAnswers,
  type CsvQuestion,
  reportQuestions,
} from "./csv-questions.ts";
import { dewPointDoubt, fahrenheitDoubt } from "./fahrenheit-doubts.ts";
import { COLUMN_LIMITS } from "./limits.ts";
import { prepareWeather } from "./prepare.ts";
import { type CsvProblem, ProblemList } from "./problems.ts";
import type { ColumnName, WeatherSeries } from "./series.ts";
import { limitOfSuspicion } from "./unit-doubts.ts";
import { celsiusOfFahrenheit } from "./units.ts";
import { type UploadPlace, uploadSeries } from "./upload-series.ts";

export type { UnderstoodColumn };

/** Files in the canonical column names: what was understood, what is wrong and where, and the series if nothing is. */

export interface CsvPlace extends UploadPlace {
  readonly answers?: CsvAnswers | undefined;
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
  /** Null while a question is open or a problem is an error. */
  readonly series: WeatherSeries | null;
  readonly questions: readonly CsvQuestion[];
  readonly problems: readonly CsvProblem[];
  readonly understood: readonly UnderstoodColumn[];
  readonly counts: CsvCounts;
}

const AT = /^weather\.(?:hours\.)?([\w.]+?)(?:\[(\d+)\])?$/;

/** An issue of the series in the words of the file: the hour becomes its row, the path its column. */
function addIssue(issue: Issue, timed: readonly TimedRow[], header: CsvHeader, problems: ProblemList): void {
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
    limit: issue.code === "unit-suspect" ? limitOfSuspicion(issue) : limitOfColumn(column),
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
  return uploadSeries(place, start, count, {
    ...given,
    airTempC: columns.get("airTempC") ?? empty(),
    relHumidityPct: columns.get("relHumidityPct") ?? empty(),
    windSpeedMps: columns.get("windSpeedMps") ?? empty(),
    rainMm: columns.get("rainMm") ?? empty(),
  });
}

/**
 * Reads a CSV file with the canonical column names. The place and the wind's height come from beside the file.
 *
 * `series` is null as soon as one problem is an error; nothing is dropped or guessed in silence.
 */
export function parseCanonicalCsv(text: string, place: CsvPlace): CanonicalCsv {
  const problems = new ProblemList();
  const answers = place.answers ?? {};
  const understood: UnderstoodColumn[] = [];
  const refuse = (rows: number, hours = 0): CanonicalCsv => ({
    series: null,
    questions: [],
    problems: problems.list(),
    understood,
    counts: { rows, hours, filled: 0, missing: 0 },
  });
  const cells = readCells(text);
  if (cells === null) {
    problems.error("empty-file", "The file is empty; it must hold a header and at least one hour");
    return refuse(0);
  }
  const header = readHeader(cells, problems, understood, answers);
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
    const answer = name === "airTempC" || name === "dewPointC" ? answers[name] : undefined;
    const toUnit = answer === "degF" ? celsiusOfFahrenheit : undefined;
    columns.set(name, readColumn(name, index, timed, cells.delimiter, count, problems, toUnit));
  }
  if (problems.hasErrors()) return refuse(rows, count);

  const series = toSeries(place, timed, columns, count);
  if (count > timed.length) {
    const message = `${count - timed.length} hours between the rows have no row and count as missing`;
    problems.warn("missing-hours", message, { column: "startUtc" });
  }
  const dewDoubt =
    answers.airTempC === "degF" && answers.dewPointC === undefined ? dewPointDoubt(series) : null;
  if (dewDoubt !== null) {
    // As it stands the file would only be refused: nothing else of it is worth telling before the answer.
    const questions = [askTemperatureUnit("dewPointC", dewDoubt)];
    reportQuestions(questions, problems);
    return { ...refuse(rows, count), questions };
  }
  const prepared = prepareWeather(series);
  if (!prepared.ok) {
    for (const issue of prepared.issues) addIssue(issue, timed, header, problems);
    return refuse(rows, count);
  }
  const degrees = fahrenheitDoubt(series, first.utcMs);
  for (const { code, text } of prepared.value.warnings) {
    if (code === "no-rain") problems.warn(code, text, { column: "rainMm" });
    else if (code === "zone-far-from-longitude") problems.warn(code, text, { column: "site.timeZone" });
    // The question about the unit tells this one; once it is answered there is nothing to look at.
    else if (code !== "temperatures-in-fahrenheit") problems.warn("look-at-this", text);
  }
  const { filledHours: filled, missingHours: missing } = prepared.value;
  const counts = { rows, hours: count, filled, missing };
  const questions: CsvQuestion[] = [];
  if (degrees !== null && answers.airTempC === undefined)
    questions.push(askTemperatureUnit("airTempC", degrees));
  if (header.rainLike.length > 0 && answers.rainMm === undefined)
    questions.push(askRainColumn(header.rainLike));
  reportQuestions(questions, problems);
  // Values stay as the file has them, null where missing; the marks say what the model puts in their place.
  const marked = { ...series, marks: prepared.value.marks };
  return {
    series: questions.length > 0 ? null : marked,
    questions,
    problems: problems.list(),
    understood,
    counts,
  };
}
