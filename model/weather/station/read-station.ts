import { median } from "simple-statistics";
import { saturationVapourPressureKPa } from "../air.ts";
import { HOUR_MS, MINUTE_MS } from "../clock.ts";
import type { CsvQuestion } from "../csv-questions.ts";
import { reportQuestions } from "../csv-questions.ts";
import { fahrenheitDoubt } from "../fahrenheit-doubts.ts";
import { utcLabel } from "../labels.ts";
import { DEW_ABOVE_AIR_TOLERANCE_C } from "../limits.ts";
import { NO_RAIN_WARNING, prepareWeather } from "../prepare.ts";
import { type CsvProblem, ProblemList } from "../problems.ts";
import type { Attribution, Site, WeatherSeries } from "../series.ts";
import { zoneDoubt } from "../zone-doubts.ts";
import {
  CLOCK_WORDS,
  CLOCKS,
  type ClockOfData,
  centroidsOf,
  clockOfData,
  LABELS,
  type StationClock,
  type StationLabel,
} from "./clock-of-data.ts";
import {
  askForMissing,
  askUnit,
  type Basis,
  type ChosenColumn,
  chooseColumns,
  type StationAnswers,
  unitOfData,
} from "./columns.ts";
import { type Gap, gapsOf } from "./gaps.ts";
import { amountsOfCounter, type StationHours, type StationValues, toHours } from "./hours.ts";
import { readCells } from "./read-cells.ts";
import { isWeatherRole, UNIT_KIND_OF, type WeatherRole } from "./roles.ts";
import { readTable, type Table } from "./table.ts";
import { DATE_ORDERS, type DateOrder, readWallTimes, type WallRow } from "./times.ts";
import { toUtc, type UtcRow } from "./to-utc.ts";

/** A station's file as it came, to a series: what was understood and why, what is open, what is wrong and where. */

export interface StationPlace {
  readonly site: Site;
  readonly windHeightM: number;
  readonly attribution?: readonly Attribution[] | undefined;
  readonly answers?: StationAnswers | undefined;
}

export interface UnderstoodStationColumn {
  readonly column: string;
  readonly as: string;
  readonly unit: string;
  readonly basis: Basis;
  readonly why: string;
}

/** A row as it was converted, for the user to see before anything is used. */
export interface ConvertedRow {
  readonly row: number;
  /** What the file's clock showed. */
  readonly wall: string;
  readonly values: Readonly<Record<string, number | null>>;
}

export interface StationReport {
  /** Null while a question is open or a problem is an error. */
  readonly series: WeatherSeries | null;
  readonly questions: readonly CsvQuestion[];
  readonly problems: readonly CsvProblem[];
  readonly understood: readonly UnderstoodStationColumn[];
  readonly clock: {
    readonly timeZone: string;
    readonly dst: boolean | null;
    readonly label: StationLabel | null;
    readonly centroidH: number | null;
  };
  readonly counts: {
    readonly rows: number;
    readonly hours: number;
    readonly filled: number;
    readonly missing: number;
  };
  readonly preview: readonly ConvertedRow[];
  readonly gaps: readonly Gap[];
  /** The same for files with the same header, so that what was said of one holds for the next. */
  readonly headerKey: string;
}

const PREVIEW_ROWS = 6;
const LONGEST_STEP_MIN = 60;

export function headerKeyOf(table: Pick<Table, "delimiter" | "columns">): string {
  return table.columns.map(({ name }) => name.toLowerCase()).join(table.delimiter);
}

/** Everything that is gathered on the way. */
class Reading {
  readonly problems = new ProblemList();
  readonly questions: CsvQuestion[] = [];
  readonly understood: UnderstoodStationColumn[] = [];
  clock: StationReport["clock"];
  preview: ConvertedRow[] = [];
  rows = 0;
  hours = 0;
  headerKey = "";

  constructor(zone: string) {
    this.clock = { timeZone: zone, dst: null, label: null, centroidH: null };
  }

  end(series: WeatherSeries | null = null, filled = 0, missing = 0): StationReport {
    reportQuestions(this.questions, this.problems);
    const open = this.questions.length > 0 || this.problems.hasErrors();
    return {
      series: open ? null : series,
      questions: this.questions,
      problems: this.problems.list(),
      understood: this.understood,
      clock: this.clock,
      counts: { rows: this.rows, hours: this.hours, filled, missing },
      preview: this.preview,
      gaps: series === null ? [] : gapsOf(series),
      headerKey: this.headerKey,
    };
  }
}

function oneOf<T extends string>(
  id: string,
  answers: StationAnswers,
  known: readonly T[],
  problems: ProblemList,
): T | null {
  const answer = answers[id];
  if (answer === undefined) return null;
  const found = known.find((one) => one === answer);
  if (found === undefined)
    problems.error("unknown-answer", `${id}: got "${answer}", must be one of ${known.join(", ")}`, {
      column: id,
      value: answer,
      limit: known.join(", "),
    });
  return found ?? null;
}

/** The columns' units: said, else proved by the numbers, else asked for. Pressure is not needed and is let go. */
function withUnits(columns: readonly ChosenColumn[], table: Table, reading: Reading): ChosenColumn[] {
  return columns.map((column): ChosenColumn => {
    const { role, unit, index } = column;
    if (!isWeatherRole(role)) return column;
    const kind = UNIT_KIND_OF[role];
    // Only a humidity can contradict its header: nothing stays below 1 % for a whole file.
    if (unit !== null && (unit.key !== "pct" || kind !== "humidity" || column.basis === "user"))
      return column;
    const numbers = table.rows.flatMap(({ cells }) => {
      const value = Number((cells[index] ?? "").trim().replace(",", "."));
      const isGiven = (cells[index] ?? "").trim() !== "" && Number.isFinite(value) && Math.abs(value) < 6000;
      return isGiven ? [value] : [];
    });
    const proved = unitOfData(kind, numbers);
    if (unit !== null) {
      if (proved?.unit.key === "fraction")
        reading.questions.push(
          askUnit(column, kind, `Its name says ${unit.label}, and it is ${proved.why}.`),
        );
      return column;
    }
    if (proved !== null)
      return { ...column, unit: proved.unit, basis: "data", why: `${column.why}; ${proved.why}` };
    if (role === "pressureHpa")
      return { ...column, role: "ignored", why: "no unit is given, and it is not needed" };
    reading.questions.push(askUnit(column, kind));
    return column;
  });
}

/** The usual time between rows, ms; null where rows are not in order or further apart than an hour. */
function stepOf(rows: readonly WallRow[], problems: ProblemList): number | null {
  const steps = rows.slice(1, 4000).flatMap(({ wallMs }, i) => {
    const step = wallMs - (rows[i]?.wallMs ?? 0);
    return step > 0 ? [step] : [];
  });
  if (steps.length === 0) {
    problems.error("no-rows", "The file needs at least two rows with times in rising order");
    return null;
  }
  const step = median(steps);
  if (step <= LONGEST_STEP_MIN * MINUTE_MS && step >= MINUTE_MS / 2) return step;
  const minutes = step / MINUTE_MS;
  const every = minutes >= 1440 ? `${minutes / 1440} days` : `${minutes} min`;
  problems.error(
    "not-hourly",
    `The rows are ${every} apart; they must be an hour apart or less: drying is followed hour by hour`,
    { value: every, limit: "at most 60 min" },
  );
  return null;
}

/** Rows in rising order. A file that begins with the newest is turned round; single rows out of order are left out and told. */
function inOrder(rows: readonly UtcRow[], problems: ProblemList): UtcRow[] {
  const out: UtcRow[] = [];
  let wrong = 0;
  for (const row of rows) {
    const before = out.at(-1);
    if (before === undefined || row.utcMs > before.utcMs) out.push(row);
    else {
      wrong += 1;
      const code = row.utcMs === before.utcMs ? "duplicate-time" : "not-increasing";
      const told =
        row.utcMs === before.utcMs ? `the same time as row ${before.row}` : `earlier than row ${before.row}`;
      problems.warn(code, `row ${row.row}: ${told}; left out`, { row: row.row, column: "time" });
    }
  }
  if (wrong > Math.max(5, rows.length * 0.02))
    problems.error(
      "not-increasing",
      `${wrong} of ${rows.length} rows do not come after the row before them: is the file of several stations, or of typical months of different years?`,
    );
  return out;
}

function clockSaid(columns: readonly ChosenColumn[], rows: readonly WallRow[]): StationClock | null {
  if (rows.length > 0 && rows.every(({ utcMs }) => utcMs !== null)) return "utc";
  const names = columns
    .filter(({ role }) => ["dateTime", "date", "time", "hour"].includes(role))
    .map(({ name }) => name.toLowerCase());
  if (names.some((name) => /utc|gmt|zulu/.test(name))) return "utc";
  if (columns.some(({ why }) => why.includes("Dutch"))) return "utc";
  if (names.some((name) => /\blst\b|standard|\b[pmce]st\b/.test(name))) return "standard";
  return null;
}

/** The order of day and month that a header such as "Date (MM/DD/YYYY)" gives. */
function orderSaid(columns: readonly ChosenColumn[]): DateOrder | null {
  const names = columns.filter(({ role }) => role === "date" || role === "dateTime").map(({ name }) => name);
  if (names.some((name) => /mm[/.-]dd/i.test(name))) return "mdy";
  return names.some((name) => /dd[/.-]mm/i.test(name)) ? "dmy" : null;
}

function labelSaid(columns: readonly ChosenColumn[]): StationLabel | null {
  const names = columns
    .filter(({ role }) => ["dateTime", "date", "time", "hour"].includes(role))
    .map(({ name }) => name.toLowerCase());
  if (names.some((name) => /\bend(ing)?\b/.test(name))) return "end";
  if (names.some((name) => /\b(begin(ning)?|start)\b/.test(name))) return "start";
  return null;
}

function askClock(found: ClockOfData, rows: readonly WallRow[]): CsvQuestion {
  const first = rows[0] ? new Date(rows[0].wallMs).toISOString().slice(0, 16).replace("T", " ") : "";
  return {
    id: "clock",
    column: "time",
    ask: `Which clock wrote the times, as ${first}? The file does not say, and ${found.why}.`,
    choices: [...CLOCKS],
  };
}

const LABEL_QUESTION: CsvQuestion = {
  id: "label",
  column: "time",
  ask: "Is a row named by the start or the end of the time that it covers, or is it of that moment? The file does not say, and its sun cannot tell.",
  choices: ["start", "end", "instant"],
};

const EMPTY: readonly never[] = [];

/** Vapour pressure of each row: from humidity, else the dew point, else as given. */
function vapourOf(columns: ReadonlyMap<WeatherRole, (number | null)[]>, count: number): (number | null)[] {
  const temp = columns.get("airTempC") ?? EMPTY;
  const humidity = columns.get("relHumidityPct") ?? EMPTY;
  const dew = columns.get("dewPointC") ?? EMPTY;
  const vapour = columns.get("vapourPressureKPa") ?? EMPTY;
  return Array.from({ length: count }, (_, i) => {
    const [t, rh, td, e] = [temp[i] ?? null, humidity[i] ?? null, dew[i] ?? null, vapour[i] ?? null];
    if (rh !== null && t !== null) return (rh / 100) * saturationVapourPressureKPa(t);
    return td === null ? e : saturationVapourPressureKPa(td);
  });
}

/** A dew point above the air is a fault of one of the two sensors; the air then counts as saturated. */
function tellDewAboveAir(columns: ReadonlyMap<WeatherRole, (number | null)[]>, problems: ProblemList): void {
  if (columns.has("relHumidityPct")) return;
  const temp = columns.get("airTempC") ?? EMPTY;
  let above = 0;
  (columns.get("dewPointC") ?? EMPTY).forEach((dew, i) => {
    const air = temp[i] ?? null;
    if (dew !== null && air !== null && dew > air + DEW_ABOVE_AIR_TOLERANCE_C) above += 1;
  });
  if (above > 0)
    problems.warn(
      "dew-point-above-air",
      `In ${above} rows the dew point stands above the air temperature: the air counts as saturated there`,
      { column: "dewPointC" },
    );
}

function rainOf(
  columns: ReadonlyMap<WeatherRole, (number | null)[]>,
  stepH: number,
): (number | null)[] | null {
  const total = columns.get("rainTotalMm");
  if (total) return amountsOfCounter(total);
  const rate = columns.get("rainRateMmH");
  if (rate) return rate.map((value) => (value === null ? null : value * stepH));
  return columns.get("rainMm") ?? null;
}

function seriesOf(hours: StationHours, place: StationPlace): WeatherSeries {
  const count = hours.airTempC.length;
  const empty = () => new Array<number | null>(count).fill(null);
  const round = (column: readonly (number | null)[]) =>
    column.map((value) => (value === null ? null : Math.round(value * 1e4) / 1e4));
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
      startUtc: Array.from({ length: count }, (_, i) => utcLabel(hours.startMs + i * HOUR_MS)),
      airTempC: round(hours.airTempC),
      relHumidityPct: round(hours.relHumidityPct),
      windSpeedMps: round(hours.windSpeedMps),
      rainMm: hours.rainMm === null ? empty() : round(hours.rainMm),
      ...(hours.solarWm2 === null ? {} : { solarWm2: round(hours.solarWm2) }),
      ...(hours.cloudPct === null ? {} : { cloudPct: round(hours.cloudPct) }),
      ...(hours.pressureHpa === null ? {} : { pressureHpa: round(hours.pressureHpa) }),
    },
  };
}

/** Reads the columns whose unit is known, each cell once. */
function readValues(
  columns: readonly ChosenColumn[],
  rows: readonly WallRow[],
  table: Table,
  stepH: number,
  reading: Reading,
  onProgress: (share: number) => void,
): Map<WeatherRole, (number | null)[]> {
  const values = new Map<WeatherRole, (number | null)[]>();
  columns.forEach(({ name, index, role, unit }, k) => {
    if (!isWeatherRole(role) || unit === null) return;
    const read = readCells(name, role, unit, rows, index, table.delimiter, stepH, reading.problems);
    if (read.filled > 0 && read.understood < read.filled * 0.8 && columns[k]?.basis !== "user") {
      const few = `${read.filled - read.understood} of ${read.filled} values are no possible ${role} in ${unit.label}.`;
      reading.questions.push(askUnit({ name }, UNIT_KIND_OF[role], few));
    } else if (read.filled > 0 && read.understood < read.filled * 0.8) {
      const message = `column ${name}: ${read.filled - read.understood} of ${read.filled} values are no possible ${role} in ${unit.label}. Is it another column, or another unit?`;
      reading.problems.error("unit-suspect", message, { column: name, limit: `${role} in ${unit.label}` });
    }
    values.set(role, read.values);
    if (unit.estimated)
      reading.problems.warn(
        "estimated",
        `column ${name}: sunlight in ${unit.label} is only roughly its radiation`,
        { column: name },
      );
    onProgress(0.3 + (0.5 * (k + 1)) / columns.length);
  });
  return values;
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
  const answers = place.answers ?? {};
  const reading = new Reading(place.site.timeZone);
  const { problems, questions } = reading;
  const table = readTable(text);
  if (table === null || table.rows.length === 0) {
    problems.error(
      "empty-file",
      "The file holds no rows of weather; it must hold a header and at least two rows",
    );
    return reading.end();
  }
  reading.rows = table.rows.length;
  reading.headerKey = headerKeyOf(table);
  onProgress(0.2);
  const columns = withUnits(chooseColumns(table, answers, problems), table, reading);
  questions.push(...askForMissing(columns, problems));

  const said = oneOf<DateOrder>("dateOrder", answers, DATE_ORDERS, problems) ?? orderSaid(columns);
  const times = readWallTimes(
    {
      ...table,
      columns: table.columns.map((column, i) => ({ ...column, role: columns[i]?.role ?? column.role })),
    },
    said,
  );
  const tell = (clockWords: string, timeBasis: Basis, timeWhy: string) => {
    for (const { name, role, unit, basis, why } of columns) {
      const isTime = !isWeatherRole(role) && role !== "ignored";
      reading.understood.push({
        column: name,
        as: role,
        unit: isTime ? clockWords : (unit?.label ?? ""),
        basis: isTime ? timeBasis : basis,
        why: isTime ? timeWhy : why,
      });
    }
  };
  if (times === null) {
    const free = columns.filter(({ role }) => role === "ignored").map(({ name }) => name);
    if (free.length > 0)
      questions.push({
        id: "column.dateTime",
        column: "time",
        ask: "Which column holds date and time?",
        choices: free.slice(0, 40),
      });
    problems.error("no-time", "No column of dates and times was found", { column: "time" });
    tell("", "header", "");
    return reading.end();
  }
  for (const { row, text: got } of times.unread)
    problems.warn("not-a-time", `row ${row}: "${got}" is no date and time; left out`, {
      row,
      column: "time",
      value: got,
    });
  if (times.unreadCount > table.rows.length * 0.2) {
    problems.error(
      "not-a-time",
      `${times.unreadCount} of ${table.rows.length} rows have no time that can be read`,
      { column: "time" },
    );
    tell("", "header", "");
    return reading.end();
  }
  if (times.order === null && said === null) {
    const example =
      times.rows[0]?.cells.find((cell) => /^\d{1,2}[/-]\d{1,2}[/-]/.test(cell.trim()))?.trim() ??
      "03/04/2026";
    questions.push({
      id: "dateOrder",
      column: "time",
      ask: `Does a date such as ${example} give the day first (dmy) or the month first (mdy)?`,
      choices: [...DATE_ORDERS],
    });
  }
  const falling = times.rows
    .slice(1)
    .filter(({ wallMs: ms }, i) => ms < (times.rows[i]?.wallMs ?? ms)).length;
  const newestFirst = falling > times.rows.length / 2;
  const wall = newestFirst ? times.rows.toReversed() : times.rows;
  const stepMs = stepOf(wall, problems);
  if (stepMs === null) {
    tell("", "header", "");
    return reading.end();
  }
  const stepH = stepMs / HOUR_MS;
  const values = readValues(columns, wall, table, stepH, reading, onProgress);

  const clockAnswer = oneOf<StationClock>("clock", answers, CLOCKS, problems);
  const labelAnswer = oneOf<StationLabel>("label", answers, LABELS, problems);
  const clockHeader = clockSaid(columns, wall);
  const labelHeader = labelSaid(columns) ?? (times.countsTo24 ? "end" : null);
  const solar = values.get("solarWm2");
  const wallMs = Float64Array.from(wall, (row) => row.wallMs);
  const found = clockOfData(
    solar ? centroidsOf(wallMs, solar, stepH, place.site.longitude) : [],
    place.site,
    stepH,
    { clock: clockAnswer ?? clockHeader, label: labelAnswer ?? labelHeader },
  );
  const clock = clockAnswer ?? clockHeader ?? found.clock;
  // An hour whose label stands at its half is of its middle.
  const atHalf = stepMs === HOUR_MS && (wall[0]?.wallMs ?? 0) % HOUR_MS === HOUR_MS / 2;
  const foundLabel = found.label === "instant" && atHalf ? "middle" : found.label;
  const label = labelAnswer ?? labelHeader ?? foundLabel;
  // The sun will tell once its unit is known: nothing is asked that the data may answer.
  const sunIsOpen = columns.some(({ role, unit }) => role === "solarWm2" && unit === null);
  if (clock === null && !sunIsOpen) questions.push(askClock(found, wall));
  if (label === null && clock !== null) questions.push(LABEL_QUESTION);
  const timeBasis: Basis =
    clockAnswer || labelAnswer ? "user" : clockHeader && labelHeader ? "header" : "data";
  tell(
    clock === null ? "" : `${CLOCK_WORDS[clock]}${label === null ? "" : `, ${label}`}`,
    timeBasis,
    found.why,
  );
  reading.clock = {
    timeZone: clock === "utc" ? "UTC" : place.site.timeZone,
    dst: clock === null ? null : clock === "daylight",
    label,
    centroidH: found.centroidH,
  };
  reading.preview = wall.slice(0, PREVIEW_ROWS).map(({ row, wallMs: ms }, i) => ({
    row,
    wall: new Date(ms).toISOString().slice(0, 16).replace("T", " "),
    values: Object.fromEntries(
      [...values].map(([role, column]) => {
        const value = column[i] ?? null;
        return [role, value === null ? null : Math.round(value * 100) / 100];
      }),
    ),
  }));
  if (clock === null || label === null || questions.length > 0 || problems.hasErrors()) return reading.end();

  const { rows: moments, skipped, lostHours } = toUtc(wall, clock, place.site.timeZone);
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
  if (problems.hasErrors()) return reading.end();
  // The values stand in the order of the wall rows; those of rows that were left out go with them.
  const position = new Map(wall.map(({ row }, i) => [row, i]));
  const kept = rows.map(({ row }) => position.get(row) ?? 0);
  const pick = (column: readonly (number | null)[] | null | undefined) =>
    column ? kept.map((i) => column[i] ?? null) : null;
  const picked = new Map([...values].map(([role, column]) => [role, pick(column) ?? []] as const));
  const count = rows.length;
  const nulls = new Array<null>(count).fill(null);
  const stationValues: StationValues = {
    airTempC: picked.get("airTempC") ?? nulls,
    vapourKPa: vapourOf(picked, count),
    windSpeedMps: picked.get("windSpeedMps") ?? nulls,
    solarWm2: picked.get("solarWm2") ?? null,
    rainMm: rainOf(picked, stepH),
    cloudPct: picked.get("cloudPct") ?? null,
    pressureHpa: picked.get("pressureHpa") ?? null,
  };
  tellDewAboveAir(picked, problems);
  const solarMeanH = labelAnswer === null ? found.solarMeanH : null;
  const hours = toHours(
    Float64Array.from(rows, ({ utcMs }) => utcMs),
    stationValues,
    stepMs,
    label,
    label === "instant" ? solarMeanH : null,
    label === "instant" && table.columns.some(({ codes }) => codes?.windOfHourBefore === true),
  );
  onProgress(0.9);
  const series = seriesOf(hours, place);
  reading.hours = series.hours.startUtc.length;
  const doubt = fahrenheitDoubt(series, hours.startMs);
  const temp = columns.find(({ role }) => role === "airTempC");
  const mayBeF = doubt !== null && temp && temp.basis !== "user" && temp.unit?.key !== "degF";
  if (mayBeF) {
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
  const zone = zoneDoubt(place.site, hours.startMs);
  for (const warning of prepared.value.warnings) {
    if (warning === NO_RAIN_WARNING) problems.warn("no-rain", warning, { column: "rainMm" });
    else if (warning === zone) problems.warn("zone-far-from-longitude", warning, { column: "site.timeZone" });
    else if (warning !== doubt || temp?.unit?.key === "degF") problems.warn("look-at-this", warning);
  }
  onProgress(1);
  const { filledHours, missingHours, marks } = prepared.value;
  return reading.end({ ...series, marks }, filledHours, missingHours);
}
