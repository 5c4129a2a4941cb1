import { askUnit, type ChosenColumn, unitOfData } from "./columns.ts";
import { readCells } from "./read-cells.ts";
import type { Reading } from "./report.ts";
import { isWeatherRole, UNIT_KIND_OF, type WeatherRole } from "./roles.ts";
import type { Table } from "./table.ts";
import type { WallRow } from "./times.ts";

/** The columns' units settled, and their cells read in them. */

/** The columns' units: said, else proved by the numbers, else asked for. Pressure is not needed and is let go. */
export function withUnits(columns: readonly ChosenColumn[], table: Table, reading: Reading): ChosenColumn[] {
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
