/** How far the draws tell which of two pairs is worth more. */

export interface Lead {
  /** Mean of the first less the second, by hectare. */
  readonly perHa: number;
  /** Standard error of that mean; null where there are fewer than two draws to tell it by. */
  readonly sePerHa: number | null;
  /** Another sample of draws may as well turn the two around: the lead is within twice its standard error. */
  readonly equal: boolean;
}

/** Some 95 % of leads that are none lie within so many standard errors. Common practice. */
export const EQUAL_WITHIN_SE = 2;

/** So near to the first a pair may lead it by a rule that no sample turns: the sample tells nothing of the two. */
export const CHOSEN_WITHIN_SE = 1;

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
  if (count < 2) return { perHa, sePerHa: null, equal: false };
  const variance = each.reduce((sum, one) => sum + (one - perHa) ** 2, 0) / (count - 1);
  const sePerHa = Math.sqrt(variance / count);
  return { perHa, sePerHa, equal: Math.abs(perHa) <= EQUAL_WITHIN_SE * sePerHa };
}
