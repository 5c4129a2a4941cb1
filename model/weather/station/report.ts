import { type CsvQuestion, reportQuestions } from "../csv-questions.ts";
import { type CsvProblem, ProblemList } from "../problems.ts";
import type { WeatherSeries } from "../series.ts";
import type { UploadPlace } from "../upload-series.ts";
import type { StationAnswers } from "./answers.ts";
import type { StationLabel } from "./clock-of-data.ts";
import type { Basis } from "./columns.ts";
import { type Gap, gapsOf } from "./gaps.ts";
import type { Table } from "./table.ts";

/** What is said of a station's file, and everything that is gathered on the way there. */

export interface StationPlace extends UploadPlace {
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

export function headerKeyOf(table: Pick<Table, "delimiter" | "columns">): string {
  return table.columns.map(({ name }) => name.toLowerCase()).join(table.delimiter);
}

/** Everything that is gathered on the way. */
export class Reading {
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
