/** How far the draws tell which of two pairs is worth more. */

export interface Lead {
  /** Mean of the first less the second, by hectare. */
  readonly perHa: number;
  /** Standard error of that mean; null where there are fewer than two draws to tell it by. */
  readonly sePerHa: number | null;
  /** Some 95 in 100 leads that are none lie within so much, by hectare; null where that cannot be told. */
  readonly withinPerHa: number | null;
  /** Another sample of draws may as well turn the two around: the lead lies within `withinPerHa`; null = cannot be told. */
  readonly equal: boolean | null;
}

/** 97.5 % point of Student's t for 1 to 10 degrees of freedom; from memory, as in any table of it. */
const T_OF_FEW = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228] as const;

/** How many standard errors a mean of `count` values may be off in 95 of 100 cases: Student's t, a series past the table. */
export function studentT95(count: number): number {
  const freedom = count - 1;
  return T_OF_FEW[freedom - 1] ?? 1.96 + 2.3724 / freedom + 2.8227 / freedom ** 2;
}

/**
 * Both pairs go through the same draws: the weather that is bad for one is often bad for the other, and their difference
 * is surer than either.
 *
 * @param members of the forecast; they are gone through in turn, and draws of one member count as one. 0 = each draw has
 *   a weather of its own
 */
export function leadOf(first: readonly number[], second: readonly number[], members = 0): Lead {
  const apart = first.map((value, i) => value - (second[i] as number));
  const count = members > 0 ? Math.min(members, apart.length) : apart.length;
  const sums = new Float64Array(count);
  for (const [i, one] of apart.entries()) sums[i % count] = (sums[i % count] as number) + one;
  const each = [...sums].map((sum) => (sum * count) / apart.length);
  const perHa = each.reduce((sum, one) => sum + one, 0) / count;
  if (count < 2) return { perHa, sePerHa: null, withinPerHa: null, equal: null };
  const variance = each.reduce((sum, one) => sum + (one - perHa) ** 2, 0) / (count - 1);
  const sePerHa = Math.sqrt(variance / count);
  const withinPerHa = studentT95(count) * sePerHa;
  return { perHa, sePerHa, withinPerHa, equal: Math.abs(perHa) <= withinPerHa };
}
