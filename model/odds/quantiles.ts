/** The shares that a course and a time are told by. */
export const TOLD_SHARES = { p10: 0.1, p25: 0.25, p50: 0.5, p75: 0.75, p90: 0.9 } as const;
export type ToldShare = keyof typeof TOLD_SHARES;
export type Quantiles = Readonly<Record<ToldShare, number>>;
export type QuantilesOrNever = Readonly<Record<ToldShare, number | null>>;

/**
 * Quantile of sorted values by linear interpolation at (n - 1) p: type 7 of Hyndman & Fan 1996, Sample quantiles in
 * statistical packages, Am. Stat. 50:361-365. Values are equally weighted: resample first where they are not.
 *
 * @throws RangeError for no values or a share outside [0, 1]
 */
export function quantileOfSorted(sorted: ArrayLike<number>, share: number): number {
  if (!(share >= 0 && share <= 1) || sorted.length === 0) {
    throw new RangeError(
      `quantileOfSorted: share must be in [0, 1] of at least one value, got ${share} of ${sorted.length}`,
    );
  }
  const at = (sorted.length - 1) * share;
  const below = Math.floor(at);
  const low = sorted[below] as number;
  const part = at - below;
  return part === 0 ? low : low + part * ((sorted[below + 1] as number) - low);
}

/** Whether told quantiles stand in their order. */
export function bandsInOrder({ p10, p25, p50, p75, p90 }: Quantiles): boolean {
  return p10 <= p25 && p25 <= p50 && p50 <= p75 && p75 <= p90;
}

function told<T>(of: (share: number) => T): Readonly<Record<ToldShare, T>> {
  const { p10, p25, p50, p75, p90 } = TOLD_SHARES;
  return { p10: of(p10), p25: of(p25), p50: of(p50), p75: of(p75), p90: of(p90) };
}

/** 10, 25, 50, 75 and 90 % of equally weighted values. */
export function quantiles(values: ArrayLike<number>): Quantiles {
  const sorted = Float64Array.from(values).sort();
  return told((share) => quantileOfSorted(sorted, share));
}

/** The same where some never come (null): a quantile that lies among those is null, never a number. */
export function quantilesOrNever(values: readonly (number | null)[]): QuantilesOrNever {
  const sorted = Float64Array.from(values, (value) => value ?? Number.POSITIVE_INFINITY).sort();
  return told((share) => {
    if (sorted.length === 0) return null;
    const value = quantileOfSorted(sorted, share);
    return Number.isFinite(value) ? value : null;
  });
}

/** Share of the values that never come, 0-1; null where there are none at all. */
export function neverShare(values: readonly (number | null)[]): number | null {
  if (values.length === 0) return null;
  return values.filter((value) => value === null).length / values.length;
}

/** Hour by hour quantiles of several courses, which must be equally long. */
export function courseBands(
  courses: readonly ArrayLike<number>[],
): Readonly<Record<ToldShare, Float64Array>> {
  const count = courses[0]?.length ?? 0;
  const uneven = courses.find(({ length }) => length !== count);
  if (uneven !== undefined || courses.length === 0) {
    throw new RangeError(
      `courseBands: courses must be at least one and equally long, got ${uneven?.length} beside ${count}`,
    );
  }
  const bands = told(() => new Float64Array(count));
  const sorted = new Float64Array(courses.length);
  for (let hour = 0; hour < count; hour++) {
    for (let i = 0; i < courses.length; i++) sorted[i] = courses[i]?.[hour] as number;
    sorted.sort();
    for (const name of Object.keys(TOLD_SHARES) as ToldShare[]) {
      bands[name][hour] = quantileOfSorted(sorted, TOLD_SHARES[name]);
    }
  }
  return bands;
}
