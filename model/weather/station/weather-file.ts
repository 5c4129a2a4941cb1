import { parseCanonicalCsv } from "../canonical-csv.ts";
import { COLUMN_NAMES } from "../checks.ts";
import type { CsvAnswers } from "../csv-questions.ts";
import type { StationAnswers } from "./answers.ts";
import type { FileText } from "./file-text.ts";
import { gapsOf } from "./gaps.ts";
import { readStation } from "./read-station.ts";
import {
  headerKeyOf,
  Reading,
  type StationPlace,
  type StationReport,
  type UnderstoodStationColumn,
} from "./report.ts";
import { isWeatherRole } from "./roles.ts";
import { readTable } from "./table.ts";

/** Any file of weather: under the canonical names it is read as it stands, else as a station's. */

export interface WeatherFilePlace extends Omit<StationPlace, "answers"> {
  /** Of a canonical file. */
  readonly answers?: CsvAnswers | undefined;
  /** Of a station's file: see `isStationAnswer`. */
  readonly stationAnswers?: StationAnswers | undefined;
  /** How its bytes were read; absent = UTF-8. */
  readonly encoding?: FileText["encoding"] | undefined;
}

export interface WeatherFile extends Omit<StationReport, "understood"> {
  readonly understood: readonly (Omit<UnderstoodStationColumn, "why"> & {
    readonly why?: string | undefined;
  })[];
}

const CANONICAL = new Set<string>(COLUMN_NAMES.map((name) => name.toLowerCase()));

/** Whether the first line that holds anything names canonical columns, and none that a station would call a time. */
function isCanonical(text: string): boolean {
  const first = /[^\r\n]*\S[^\r\n]*/.exec(text.replace(/^\uFEFF/, ""))?.[0] ?? "";
  const cells = first.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, "").toLowerCase());
  if (cells.includes("startutc")) return true;
  const known = cells.filter((cell) => CANONICAL.has(cell)).length;
  if (known === 0) return first === "";
  const table = readTable(text.slice(0, 20_000));
  const timed = table?.columns.some(({ role }) => role !== "ignored" && !isWeatherRole(role)) ?? false;
  return !timed;
}

/** The start of a file, which tells a picture or a spreadsheet's archive from text. */
const LOOKED_AT = 4000;
/** Control signs that no text holds, of all: more than this is no text. Assumed. */
const MOST_CONTROLS = 0.02;

function isText(text: string): boolean {
  const start = text.slice(0, LOOKED_AT);
  // Some loggers pad their rows with zeros.
  const controls = (start.match(/\p{Cc}|\uFFFD/gu) ?? []).filter((sign) => !"\t\r\n\0".includes(sign)).length;
  return controls <= MOST_CONTROLS * start.length;
}

const NO_TEXT =
  "This is no text file: it looks like a picture, a spreadsheet or an archive. Save the weather as CSV text and take that";

/**
 * Reads a file of weather of either kind. Never throws for what a file holds.
 *
 * @param onProgress told a share of the work, 0 to 1, now and then
 */
export function readWeatherFile(
  text: string,
  place: WeatherFilePlace,
  onProgress: (share: number) => void = () => {},
): WeatherFile {
  const { encoding = "utf-8", ...asked } = place;
  const read = readOfKind(text, asked, onProgress);
  if (encoding !== "windows-1252") return read;
  const message = "The file is not UTF-8 and was read as Windows-1252: look at the names of its columns";
  const told = {
    row: null,
    column: null,
    value: null,
    limit: "UTF-8",
    code: "encoding",
    severity: "warning",
    message,
  } as const;
  return { ...read, problems: [...read.problems, told] };
}

function readOfKind(
  text: string,
  { answers, stationAnswers, ...rest }: Omit<WeatherFilePlace, "encoding">,
  onProgress: (share: number) => void,
): WeatherFile {
  if (!isText(text)) {
    const reading = new Reading(rest.site.timeZone);
    reading.problems.error("not-text", NO_TEXT);
    return reading.end();
  }
  if (!isCanonical(text)) {
    const more = Object.fromEntries(
      Object.entries(answers ?? {}).flatMap(([role, answer]) =>
        answer === undefined ? [] : [[role, answer]],
      ),
    );
    return readStation(text, { ...rest, answers: { ...more, ...stationAnswers } }, onProgress);
  }
  const canonical = parseCanonicalCsv(text, { ...rest, ...(answers ? { answers } : {}) });
  const table = readTable(text.slice(0, 5000));
  return {
    ...canonical,
    // Canonical files carry their offset in every time: nothing has to be asked or looked at.
    clock: { timeZone: "UTC", dst: false, label: "start", centroidH: null },
    preview: [],
    gaps: canonical.series === null ? [] : gapsOf(canonical.series),
    headerKey: table === null ? "" : headerKeyOf(table),
  };
}
