import { HOUR_MS } from "../clock.ts";
import { fahrenheitDoubt } from "../fahrenheit-doubts.ts";
import { prepareWeather } from "../prepare.ts";
import type { WeatherSeries } from "../series.ts";
import {
  CLOCK_WORDS,
  CLOCKS,
  centroidsOf,
  clockOfData,
  LABELS,
  type StationClock,
  type StationLabel,
} from "./clock-of-data.ts";
import { askForMissing, askUnit, type Basis, type ChosenColumn, chooseColumns } from "./columns.ts";
import { toHours } from "./hours.ts";
import { headerKeyOf, Reading, type StationPlace, type StationReport } from "./report.ts";
import { isWeatherRole, type WeatherRole } from "./roles.ts";
import { inOrder, stepOf } from "./row-order.ts";
import { tellSensorDoubts } from "./sensor-doubts.ts";
import { readTable, type Table } from "./table.ts";
import { askClock, clockSaid, LABEL_QUESTION, labelSaid, oneOf, orderSaid } from "./time-said.ts";
import { DATE_ORDERS, readWallTimes, type WallRow } from "./times.ts";
import { seriesOf, stationValues } from "./to-series.ts";
import { toUtc } from "./to-utc.ts";
import { readValues, withUnits } from "./values.ts";

/** A station's file as it came, to a series: what was understood and why, what is open, what is wrong and where. */

const PREVIEW_ROWS = 6;
/** With more of its rows without a time a file is not understood. */
const MOST_UNTIMED = 0.2;

type Values = ReadonlyMap<WeatherRole, (number | null)[]>;

/** Reports the columns as they were understood; those of the time by the clock that was settled. */
function tellColumns(
  columns: readonly ChosenColumn[],
  reading: Reading,
  time: { readonly unit: string; readonly basis: Basis; readonly why: string },
): void {
  const dated = columns.some(({ role }) => ["date", "dateTime", "year"].includes(role));
  for (const { name, role: is, unit, basis, why } of columns) {
    // Where no other column has a date, the one called a time holds it too.
    const role = is === "time" && !dated ? "dateTime" : is;
    const isTime = !isWeatherRole(role) && role !== "ignored";
    reading.understood.push(
      isTime
        ? { column: name, as: role, ...time }
        : { column: name, as: role, unit: unit?.label ?? "", basis, why },
    );
  }
}

interface Timed {
  readonly wall: readonly WallRow[];
  readonly stepMs: number;
  readonly countsTo24: boolean;
}

/** The rows by the file's own clock, oldest first; null where their times are not understood. */
function timesOf(
  table: Table,
  columns: readonly ChosenColumn[],
  { answers = {} }: StationPlace,
  { problems, questions }: Reading,
): Timed | null {
  const said = oneOf("dateOrder", answers, DATE_ORDERS, problems) ?? orderSaid(columns);
  const roles = table.columns.map((column, i) => ({ ...column, role: columns[i]?.role ?? column.role }));
  const times = readWallTimes({ ...table, columns: roles }, said);
  if (times === null) {
    const choices = columns.filter(({ role }) => role === "ignored").map(({ name }) => name);
    const ask = "Which column holds date and time?";
    if (choices.length > 0)
      questions.push({ id: "column.dateTime", column: "time", ask, choices: choices.slice(0, 40) });
    problems.error("no-time", "No column of dates and times was found", { column: "time" });
    return null;
  }
  for (const { row, text: value } of times.unread)
    problems.warn("not-a-time", `row ${row}: "${value}" is no date and time; left out`, {
      row,
      column: "time",
      value,
    });
  if (times.unreadCount > table.rows.length * MOST_UNTIMED) {
    const message = `${times.unreadCount} of ${table.rows.length} rows have no time that can be read`;
    problems.error("not-a-time", message, { column: "time" });
    return null;
  }
  if (times.order === null && said === null) {
    const isDate = (cell: string) => /^\d{1,2}[/-]\d{1,2}[/-]/.test(cell.trim());
    const example = times.rows[0]?.cells.find(isDate)?.trim() ?? "03/04/2026";
    questions.push({
      id: "dateOrder",
      column: "time",
      ask: `Does a date such as ${example} give the day first (dmy) or the month first (mdy)?`,
      choices: [...DATE_ORDERS],
    });
  }
  const falls = ({ wallMs }: WallRow, i: number) => wallMs < (times.rows[i]?.wallMs ?? wallMs);
  const newestFirst = times.rows.slice(1).filter(falls).length > times.rows.length / 2;
  const wall = newestFirst ? times.rows.toReversed() : times.rows;
  const stepMs = stepOf(wall, problems);
  return stepMs === null ? null : { wall, stepMs, countsTo24: times.countsTo24 };
}

interface Clock {
  readonly clock: StationClock;
  readonly label: StationLabel;
  /** Averaging time of the radiation before an instant, h. */
  readonly solarMeanH: number | null;
}

/** Clock and label: as the user says, else as the header does, else as the sun proves; null where a question is open. */
function settleClock(
  { wall, stepMs, countsTo24 }: Timed,
  values: Values,
  columns: readonly ChosenColumn[],
  { site, answers = {} }: StationPlace,
  reading: Reading,
): Clock | null {
  const { problems, questions } = reading;
  const answer = {
    clock: oneOf("clock", answers, CLOCKS, problems),
    label: oneOf("label", answers, LABELS, problems),
  };
  const header = {
    clock: clockSaid(columns, wall),
    label: labelSaid(columns) ?? (countsTo24 ? "end" : null),
  };
  const solar = values.get("solarWm2");
  const stepH = stepMs / HOUR_MS;
  const wallMs = Float64Array.from(wall, (row) => row.wallMs);
  const found = clockOfData(solar ? centroidsOf(wallMs, solar, stepH, site.longitude) : [], site, stepH, {
    clock: answer.clock ?? header.clock,
    label: answer.label ?? header.label,
  });
  // An hour whose label stands at its half is of its middle.
  const atHalf = stepMs === HOUR_MS && (wall[0]?.wallMs ?? 0) % HOUR_MS === HOUR_MS / 2;
  const foundLabel = found.label === "instant" && atHalf ? "middle" : found.label;
  const clock = answer.clock ?? header.clock ?? found.clock;
  const label = answer.label ?? header.label ?? foundLabel;
  // The sun will tell once its unit is known: nothing is asked that the data may answer.
  const sunIsOpen = columns.some(({ role, unit }) => role === "solarWm2" && unit === null);
  if (clock === null && !sunIsOpen) questions.push(askClock(found, wall));
  else if (clock !== null && label === null) questions.push(LABEL_QUESTION);
  tellColumns(columns, reading, {
    unit: clock === null ? "" : `${CLOCK_WORDS[clock]}${label === null ? "" : `, ${label}`}`,
    basis: answer.clock || answer.label ? "user" : header.clock && header.label ? "header" : "data",
    why: found.why,
  });
  reading.clock = {
    timeZone: clock === "utc" ? "UTC" : site.timeZone,
    dst: clock === null ? null : clock === "daylight",
    label,
    centroidH: found.centroidH,
  };
  if (clock === null || label === null) return null;
  const solarMeanH = label === "instant" && answer.label === null ? found.solarMeanH : null;
  return { clock, label, solarMeanH };
}

/** The first rows as they were converted. */
function previewOf(wall: readonly WallRow[], values: Values): Reading["preview"] {
  return wall.slice(0, PREVIEW_ROWS).map(({ row, wallMs }, i) => ({
    row,
    wall: new Date(wallMs).toISOString().slice(0, 16).replace("T", " "),
    values: Object.fromEntries(
      [...values].map(([role, column]) => {
        const value = column[i] ?? null;
        return [role, value === null ? null : Math.round(value * 100) / 100];
      }),
    ),
  }));
}

/** Rows with their values in UTC and rising order; what the clock's change does to them is told. */
function momentsOf(
  { wall }: Timed,
  clock: StationClock,
  values: Values,
  zone: string,
  { problems }: Reading,
) {
  const { rows: moments, skipped, lostHours } = toUtc(wall, clock, zone);
  for (const { row } of skipped)
    problems.warn(
      "skipped-hour",
      `row ${row}: the clock is set forward over this hour, so it cannot have been shown; left out`,
      { row, column: "time" },
    );
  if (lostHours > 0)
    problems.warn(
      "lost-hour",
      `${lostHours} ${lostHours === 1 ? "hour" : "hours"} of the night on which the clock is set back stand once in the file: the second is missing`,
    );
  const rows = inOrder(moments, problems);
  // The values stand in the order of the wall rows; those of rows that were left out go with them.
  const position = new Map(wall.map(({ row }, i) => [row, i]));
  const kept = rows.map(({ row }) => position.get(row) ?? 0);
  const columns = new Map(
    [...values].map(([role, column]) => [role, kept.map((i) => column[i] ?? null)] as const),
  );
  return { utcMs: Float64Array.from(rows, ({ utcMs }) => utcMs), columns };
}

/**
 * Reads any delimited text of a weather station. Never throws for what a file holds.
 *
 * @param onProgress told a share of the work, 0 to 1, now and then
 */
export function readStation(
  text: string,
  place: StationPlace,
  onProgress: (share: number) => void = () => {},
): StationReport {
  const reading = new Reading(place.site.timeZone);
  const { problems, questions } = reading;
  const table = readTable(text);
  if (table === null || table.rows.length === 0) {
    const message = "The file holds no rows of weather; it must hold a header and at least two rows";
    problems.error("empty-file", message);
    return reading.end();
  }
  reading.rows = table.rows.length;
  reading.headerKey = headerKeyOf(table);
  onProgress(0.2);
  const columns = withUnits(chooseColumns(table, place.answers ?? {}, problems), table, reading);
  questions.push(...askForMissing(columns, problems));
  const timed = timesOf(table, columns, place, reading);
  if (timed === null) {
    tellColumns(columns, reading, { unit: "", basis: "header", why: "" });
    return reading.end();
  }
  const { wall, stepMs } = timed;
  const stepH = stepMs / HOUR_MS;
  const values = readValues(columns, wall, table, stepH, reading, onProgress);
  const settled = settleClock(timed, values, columns, place, reading);
  reading.preview = previewOf(wall, values);
  if (settled === null || questions.length > 0 || problems.hasErrors()) return reading.end();

  const moments = momentsOf(timed, settled.clock, values, place.site.timeZone, reading);
  if (problems.hasErrors()) return reading.end();
  const hours = toHours(
    moments.utcMs,
    stationValues(moments.columns, moments.utcMs, stepH, problems),
    stepMs,
    settled.label,
    settled.solarMeanH,
    settled.label === "instant" && table.columns.some(({ codes }) => codes?.windOfHourBefore === true),
  );
  onProgress(0.9);
  const series = seriesOf(hours, place);
  reading.hours = series.hours.startUtc.length;
  const report = finish(series, hours.startMs, columns, reading);
  onProgress(1);
  return report;
}

/** The series once the model has looked at it: what it doubts is asked or told. */
function finish(
  series: WeatherSeries,
  startMs: number,
  columns: readonly ChosenColumn[],
  reading: Reading,
): StationReport {
  const { problems, questions } = reading;
  const doubt = fahrenheitDoubt(series, startMs);
  const temp = columns.find(({ role }) => role === "airTempC");
  if (doubt !== null && temp && temp.basis !== "user" && temp.unit?.key !== "degF") {
    // As it stands it would only be refused: nothing else of it is worth telling before the answer.
    questions.push(askUnit(temp, "temperature", doubt));
    return reading.end(series);
  }
  const prepared = prepareWeather(series);
  if (!prepared.ok) {
    for (const { code, message } of prepared.issues)
      problems.error(code, message.replace(/^weather\.(hours\.)?/, ""));
    return reading.end(series);
  }
  for (const { code, text } of prepared.value.warnings) {
    if (code === "no-rain") problems.warn(code, text, { column: "rainMm" });
    else if (code === "zone-far-from-longitude") problems.warn(code, text, { column: "site.timeZone" });
    else if (code !== "temperatures-in-fahrenheit" || temp?.unit?.key === "degF")
      problems.warn("look-at-this", text);
  }
  tellSensorDoubts(series, problems);
  const { filledHours, missingHours, marks } = prepared.value;
  return reading.end({ ...series, marks }, filledHours, missingHours);
}
