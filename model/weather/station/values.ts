import { isMissingNumber } from "../csv-cells.ts";
import { AS } from "./answers.ts";
import { askUnit, type ChosenColumn, unitOfData } from "./columns.ts";
import { rainKindOf } from "./rain-counter.ts";
import { readCells } from "./read-cells.ts";
import type { Reading } from "./report.ts";
import { isWeatherRole, UNIT_KIND_OF, type WeatherRole } from "./roles.ts";
import type { Table } from "./table.ts";
import type { WallRow } from "./times.ts";

/** The columns' units settled, and their cells read in them. */

/** The numbers of a column as they stand in the file, without those that loggers write for a missing value. */
function numbersOf(table: Table, index: number): number[] {
  return table.rows.flatMap(({ cells }) => {
    const text = (cells[index] ?? "").trim();
    const value = Number(text.replace(",", "."));
    const isGiven =
      text !== "" && Number.isFinite(value) && Math.abs(value) < 6000 && !isMissingNumber(value);
    return isGiven ? [value] : [];
  });
}

/** Rain by a plain name that never falls back is a counter, whatever it is called; where it may be either it is asked. */
function withRainKind(column: ChosenColumn, table: Table, reading: Reading): ChosenColumn {
  if (column.role !== "rainMm" || column.basis === "user") return column;
  const kind = rainKindOf(numbersOf(table, column.index));
  if (kind === "amounts") return column;
  if (kind === "counter")
    return {
      ...column,
      role: "rainTotalMm",
      basis: "data",
      why: "it stands or rises from row to row: a counter, not the rain of each row",
    };
  const ask = `Is ${column.name} the rain of each row, or a counter that stands until it is set back? It rarely falls.`;
  const choices = ["rainMm", "rainTotalMm"];
  reading.questions.push({ id: `${AS}${column.name}`, column: column.name, ask, choices });
  return column;
}

/** The columns' units: said, else proved by the numbers, else asked for. Pressure is not needed and is let go. */
export function withUnits(columns: readonly ChosenColumn[], table: Table, reading: Reading): ChosenColumn[] {
  return columns.map((chosen): ChosenColumn => {
    const column = withRainKind(chosen, table, reading);
    const { role, unit, index } = column;
    if (!isWeatherRole(role)) return column;
    const kind = UNIT_KIND_OF[role];
    // Only a humidity can contradict its header: nothing stays below 1 % for a whole file.
    if (unit !== null && (unit.key !== "pct" || kind !== "humidity" || column.basis === "user"))
      return column;
    const proved = unitOfData(kind, numbersOf(table, index));
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

/** Reads the columns whose unit is known, each cell once. */
export function readValues(
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
