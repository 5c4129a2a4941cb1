import { COLUMN_NAMES } from "./checks.ts";
import type { CsvCells } from "./csv-cells.ts";
import { type CsvAnswers, NO_RAIN_COLUMN } from "./csv-questions.ts";
import { COLUMN_LIMITS } from "./limits.ts";
import type { ProblemList } from "./problems.ts";
import type { ColumnName } from "./series.ts";
import { excerpt } from "./shown.ts";

/** The header of a canonical file: which column holds what, and what is missing. */

/** How one column of the file was read. */
export interface UnderstoodColumn {
  readonly column: string;
  readonly as: string;
  readonly unit: string;
  readonly basis: "header" | "user";
}

/** Positions of the columns that are read. */
export interface CsvHeader {
  readonly time: number;
  readonly columns: ReadonlyMap<ColumnName, number>;
  /** Columns not known whose names speak of rain, where there is no rainMm. */
  readonly rainLike: readonly string[];
}

const RAIN_LIKE = /rain|precip/i;

/** Finds the canonical columns, in any case of letters; null when one that is needed is not there. */
export function readHeader(
  cells: CsvCells,
  problems: ProblemList,
  understood: UnderstoodColumn[],
  answers: CsvAnswers = {},
): CsvHeader | null {
  const byName = new Map<string, ColumnName>(COLUMN_NAMES.map((name) => [name.toLowerCase(), name]));
  const columns = new Map<ColumnName, number>();
  const rainLike: string[] = [];
  const rainColumn = answers.rainMm === NO_RAIN_COLUMN ? undefined : answers.rainMm;
  if (rainColumn !== undefined && !cells.header.includes(rainColumn)) {
    problems.error(
      "missing-column",
      `column ${excerpt(rainColumn)}: not in the header, and rainMm is to be read from it`,
      {
        column: rainColumn,
      },
    );
  }
  let time = -1;
  cells.header.forEach((text, index) => {
    const byUser = text !== "" && text === rainColumn;
    const name = byUser ? "rainMm" : byName.get(text.toLowerCase());
    const isTime = text.toLowerCase() === "startutc";
    if (isTime ? time >= 0 : name !== undefined && columns.has(name)) {
      problems.error(
        "duplicate-column",
        `column ${excerpt(text)}: stands twice in the header, must stand once`,
        {
          column: text,
        },
      );
    } else if (isTime) {
      time = index;
      understood.push({ column: text, as: "startUtc", unit: "ISO 8601", basis: "header" });
    } else if (name !== undefined) {
      columns.set(name, index);
      const answer = name === "airTempC" || name === "dewPointC" ? answers[name] : undefined;
      const basis = byUser || answer !== undefined ? "user" : "header";
      const unit = answer === "degF" ? "°F" : COLUMN_LIMITS[name].unit;
      understood.push({ column: text, as: name, unit, basis });
    } else if (text !== "") {
      if (RAIN_LIKE.test(text)) rainLike.push(text);
      const known = ["startUtc", ...COLUMN_NAMES].join(", ");
      problems.warn("unknown-column", `column ${excerpt(text)}: not known and left out; known are ${known}`, {
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
  if (absent.length === 0) return { time, columns, rainLike: columns.has("rainMm") ? [] : rainLike };
  for (const name of absent) {
    problems.error("missing-column", `column ${name}: not in the header, and it is needed`, { column: name });
  }
  return null;
}
