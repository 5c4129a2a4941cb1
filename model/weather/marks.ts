import type { ColumnName, Mark, Marks } from "./series.ts";

/**
 * The marks of the hours [from, to): those given, overlaid by those that the preparation put. Columns without any mark
 * are left out.
 */
export function mergeMarks(
  given: Marks | undefined,
  from: number,
  to: number,
  put: readonly (readonly [ColumnName, Uint8Array, Mark])[],
): Marks {
  const merged: Partial<Record<ColumnName, (Mark | null)[]>> = {};
  for (const [name, marks] of Object.entries(given ?? {}) as [ColumnName, readonly (Mark | null)[]][]) {
    const own = Array.from({ length: to - from }, (_, i) => marks[from + i] ?? null);
    if (own.some((mark) => mark !== null)) merged[name] = own;
  }
  for (const [name, flags, mark] of put) {
    if (flags.indexOf(1, from) === -1 || flags.indexOf(1, from) >= to) continue;
    const column = merged[name] ?? new Array<Mark | null>(to - from).fill(null);
    for (let i = from; i < to; i++) if (flags[i] === 1) column[i - from] = mark;
    merged[name] = column;
  }
  return merged;
}
