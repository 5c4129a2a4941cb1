import { LONGEST_FILLED_GAP_H } from "./limits.ts";

/** Filling short gaps. NaN stands for a missing value inside this folder's working arrays, never outside it. */

/**
 * Fills runs of NaN of up to 3 h by a straight line between their neighbours. Runs at either end have only one
 * neighbour and stay, as do longer ones.
 *
 * @param filled one flag an hour, set to 1 where a value was put
 * @returns how many values were put
 */
export function fillShortGaps(
  values: Float64Array,
  filled: Uint8Array,
  longestH = LONGEST_FILLED_GAP_H,
): number {
  let put = 0;
  let i = 0;
  while (i < values.length) {
    if (!Number.isNaN(values[i] as number)) {
      i++;
      continue;
    }
    let end = i;
    while (end < values.length && Number.isNaN(values[end] as number)) end++;
    const run = end - i;
    if (i > 0 && end < values.length && run <= longestH) {
      const before = values[i - 1] as number;
      const after = values[end] as number;
      for (let k = 0; k < run; k++) {
        values[i + k] = before + ((after - before) * (k + 1)) / (run + 1);
        filled[i + k] = 1;
      }
      put += run;
    }
    i = end;
  }
  return put;
}

/** A column as working values: null becomes NaN. A column that is not there is all NaN. */
export function toValues(column: readonly (number | null)[] | undefined, count: number): Float64Array {
  const values = new Float64Array(count).fill(Number.NaN);
  if (column === undefined) return values;
  for (let i = 0; i < count; i++) {
    const value = column[i];
    if (typeof value === "number") values[i] = value;
  }
  return values;
}

/** How many values are there. */
export function countPresent(values: Float64Array): number {
  let present = 0;
  for (const value of values) if (!Number.isNaN(value)) present++;
  return present;
}
