import { limitInWords, within } from "../../limits.ts";
import { isMissingNumber, readCell } from "../csv-cells.ts";
import { COLUMN_LIMITS } from "../limits.ts";
import type { ProblemList } from "../problems.ts";
import { excerpt, shown } from "../shown.ts";
import type { WeatherRole } from "./roles.ts";
import type { Delimiter } from "./table.ts";
import type { StationUnit } from "./units.ts";

/** The cells of one column as numbers in the model's unit; what is no number, or impossible, is told and left out. */

export interface ReadColumn {
  readonly values: (number | null)[];
  /** Cells that held a number, a missing code or a trace, of those that held anything. */
  readonly understood: number;
  readonly filled: number;
}

/** Limits of the columns that are no canonical ones. */
const OTHER_LIMITS = {
  vapourPressureKPa: { min: 0, max: 6, unit: "kPa" },
  rainTotalMm: { min: 0, max: 20_000, unit: "mm" },
  rainRateMmH: { min: 0, max: 900, unit: "mm/h" },
} as const;

function limitOf(role: WeatherRole) {
  if (role === "vapourPressureKPa" || role === "rainTotalMm" || role === "rainRateMmH")
    return OTHER_LIMITS[role];
  return COLUMN_LIMITS[role];
}

/** A trace of rain: it wets, but less than is measured. Some files write -1 in tenths of a millimetre for it. */
const TRACE = /^t(race)?$/i;

export function readCells(
  name: string,
  role: WeatherRole,
  unit: StationUnit,
  rows: readonly { readonly row: number; readonly cells: readonly string[] }[],
  index: number,
  delimiter: Delimiter,
  stepH: number,
  problems: ProblemList,
): ReadColumn {
  const limit = limitOf(role);
  const isRain = role === "rainMm" || role === "rainTotalMm" || role === "rainRateMmH";
  const comma = delimiter === "," ? "," : ";";
  let [understood, filled, traces, codes, outside] = [0, 0, 0, 0, 0];
  const values = rows.map(({ row, cells }): number | null => {
    const text = (cells[index] ?? "").trim();
    if (text !== "") filled += 1;
    if (isRain && TRACE.test(text)) {
      traces += 1;
      understood += 1;
      return 0;
    }
    // A quoted cell may hold a decimal comma even where commas part the cells.
    const plain = comma === "," && /^[+-]?\d+,\d{1,2}$/.test(text) ? text.replace(",", ".") : text;
    const cell = readCell(plain, comma);
    if (cell.kind === "missing") {
      if (text !== "") understood += 1;
      return null;
    }
    const at = { row, column: name, value: text, limit: `${limit.min} to ${limit.max} ${limit.unit}` };
    if (cell.kind === "text") {
      problems.warn(
        "not-a-number",
        `row ${row}, ${name}: got "${excerpt(text)}", no number; counts as missing`,
        at,
      );
      return null;
    }
    understood += 1;
    if (isRain && unit.key === "tenthMm" && cell.value === -1) {
      traces += 1;
      return 0;
    }
    const value = unit.toOurs(cell.value, stepH);
    // Sensors read a little below zero at night, and up to 103 % in saturated air.
    if (role === "solarWm2" && value < 0 && value >= limit.min) return 0;
    if (within(value, limit)) return role === "relHumidityPct" ? Math.min(100, value) : value;
    if (isMissingNumber(cell.value)) {
      codes += 1;
      return null;
    }
    outside += 1;
    const ours = shown(value, limit);
    const inFile = Number(ours) === cell.value ? ours : `${excerpt(text)} ${unit.label} (${ours})`;
    problems.warn(
      "out-of-range",
      `row ${row}, ${name}: got ${inFile}, ${limitInWords(limit)}; counts as missing`,
      at,
    );
    return null;
  });
  if (codes > 0)
    problems.warn("missing-code", `column ${name}: ${codes} values such as -9999 were read as missing`, {
      column: name,
    });
  if (traces > 0)
    problems.warn(
      "trace-rain",
      `column ${name}: ${traces} traces of rain count as 0 mm; they still wet a swath`,
      {
        column: name,
      },
    );
  const impossible = outside > Math.max(3, 0.05 * rows.length);
  return { values, understood: impossible ? understood - outside : understood, filled };
}
