import type { ColumnName, Mark, Marks } from "./series.ts";

/** The marks given, overlaid by those that the preparation put. Columns without any mark are left out. */
export function mergeMarks(
  given: Marks | undefined,
  put: readonly (readonly [ColumnName, Uint8Array, Mark])[],
): Marks {
  const merged: Partial<Record<ColumnName, (Mark | null)[]>> = {};
  for (const [name, marks] of Object.entries(given ?? {}) as [ColumnName, readonly (Mark | null)[]][]) {
    if (marks.some((mark) => mark !== null)) merged[name] = [...marks];
  }
  for (const [name, flags, mark] of put) {
    if (!flags.includes(1)) continue;
    const column = merged[name] ?? new Array<Mark | null>(flags.length).fill(null);
    flags.forEach((flag, i) => {
      if (flag === 1) column[i] = mark;
    });
    merged[name] = column;
  }
  return merged;
}
