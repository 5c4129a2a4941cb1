/** The normal curve. The statistics library's own are good to 1e-7 (sum) and 1e-3 (inverse): too coarse for scores. */

const SQRT_2PI = Math.sqrt(2 * Math.PI);

/** Density of the standard normal curve. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / SQRT_2PI;
}

/**
 * Share of the standard normal curve below z, 0-1, within 1e-14.
 * Source: Marsaglia 2004, Evaluating the normal distribution, J. Stat. Softw. 11(4): from memory.
 */
export function normalShareBelow(z: number): number {
  if (z > 8) return 1;
  if (z < -8) return 0;
  let sum = z;
  let term = z;
  for (let i = 3; Math.abs(term) > 1e-17 * Math.abs(sum); i += 2) {
    term *= (z * z) / i;
    sum += term;
  }
  return Math.min(1, Math.max(0, 0.5 + sum * normalDensity(z)));
}

// Acklam's rational approximation of the inverse, relative error under 1.2e-9: from memory, held by a test to the sum above.
const CENTRE = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469279e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
] as const;
const CENTRE_UNDER = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1,
  1,
] as const;
const TAIL = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
] as const;
const TAIL_UNDER = [
  7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1,
] as const;
const TAIL_BELOW = 0.02425;

function polynomial(terms: readonly number[], x: number): number {
  return terms.reduce((sum, term) => sum * x + term, 0);
}

/**
 * The z that has `share` of the standard normal curve below it.
 *
 * @throws RangeError unless 0 < share < 1
 */
export function normalAtShare(share: number): number {
  if (!(share > 0 && share < 1)) {
    throw new RangeError(`normalAtShare: share must be in (0, 1), got ${share}`);
  }
  if (share > 0.5) return -normalAtShare(1 - share);
  if (share < TAIL_BELOW) {
    const q = Math.sqrt(-2 * Math.log(share));
    return polynomial(TAIL, q) / polynomial(TAIL_UNDER, q);
  }
  const q = share - 0.5;
  return (q * polynomial(CENTRE, q * q)) / polynomial(CENTRE_UNDER, q * q);
}
