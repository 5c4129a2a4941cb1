import { normalDensity, normalShareBelow } from "./normal.ts";

/** Scores of single forecasts, all the better the smaller; unit that of the quantity. */

function requireSome(where: string, count: number): void {
  if (count === 0) throw new RangeError(`${where}: needs at least one value, got 0`);
}

/** Mean of forecast less observed. */
export function bias(forecast: readonly number[], observed: readonly number[]): number {
  requireSome("bias", observed.length);
  return observed.reduce((sum, y, i) => sum + (forecast[i] as number) - y, 0) / observed.length;
}

export function meanAbsoluteError(forecast: readonly number[], observed: readonly number[]): number {
  requireSome("meanAbsoluteError", observed.length);
  return observed.reduce((sum, y, i) => sum + Math.abs((forecast[i] as number) - y), 0) / observed.length;
}

/** Mean of |x - y| over equally weighted members, and of |x - x'| over their ordered pairs times m². */
function memberTerms(members: ArrayLike<number>, observed: number): { away: number; pairs: number } {
  const sorted = Float64Array.from(members).sort();
  const m = sorted.length;
  requireSome("crps", m);
  let away = 0;
  let pairs = 0;
  // Over sorted members the pairs need one pass: x_i stands above i others and below m - 1 - i.
  sorted.forEach((x, i) => {
    away += Math.abs(x - observed);
    pairs += 2 * x * (2 * i + 1 - m);
  });
  return { away: away / m, pairs };
}

/** Continuous ranked probability score of an ensemble: mean|x - y| - sum|x - x'| / (2 m²). */
export function crpsOfMembers(members: ArrayLike<number>, observed: number): number {
  const { away, pairs } = memberTerms(members, observed);
  return away - pairs / (2 * members.length ** 2);
}

/** The fair form, which does not punish few members: the pairs over 2 m (m - 1). Needs two members. */
export function fairCrpsOfMembers(members: ArrayLike<number>, observed: number): number {
  if (!(members.length >= 2)) {
    throw new RangeError(`fairCrpsOfMembers: needs at least two members, got ${members.length}`);
  }
  const { away, pairs } = memberTerms(members, observed);
  return away - pairs / (2 * members.length * (members.length - 1));
}

/** CRPS of a normal forecast: s (z (2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi)), z = (y - mean)/s. */
export function crpsOfNormal(mean: number, sd: number, observed: number): number {
  if (!(sd > 0)) throw new RangeError(`crpsOfNormal: sd must be above 0, got ${sd}`);
  const z = (observed - mean) / sd;
  return sd * (z * (2 * normalShareBelow(z) - 1) + 2 * normalDensity(z) - 1 / Math.sqrt(Math.PI));
}

/** Pinball loss of the quantile `q` told for the share `tau`. */
export function pinball(q: number, tau: number, observed: number): number {
  if (!(tau >= 0 && tau <= 1)) throw new RangeError(`pinball: tau must be in [0, 1], got ${tau}`);
  return observed >= q ? tau * (observed - q) : (1 - tau) * (q - observed);
}
