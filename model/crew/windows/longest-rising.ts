/** Indices of the most rows such that no number of a row is below the same number of the row kept before it. */
export function longestRising(rows: readonly (readonly number[])[]): number[] {
  const length = rows.map(() => 1);
  const before = rows.map(() => -1);
  for (let j = 0; j < rows.length; j++) {
    for (let i = 0; i < j; i++) {
      const follows = (rows[j] as readonly number[]).every((value, k) => value >= (rows[i]?.[k] as number));
      if (follows && (length[i] as number) + 1 > (length[j] as number)) {
        length[j] = (length[i] as number) + 1;
        before[j] = i;
      }
    }
  }
  let at = -1;
  rows.forEach((_, j) => {
    if (at < 0 || (length[j] as number) > (length[at] as number)) at = j;
  });
  const kept: number[] = [];
  for (; at >= 0; at = before[at] as number) kept.unshift(at);
  return kept;
}
