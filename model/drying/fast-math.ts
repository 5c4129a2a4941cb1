/**
 * Math.exp and Math.log for what is asked every hour of every cut: a table and a short series, at about half their cost,
 * to the last digits. The engine's own are calls out of compiled code; these are inlined into it. Outside the tables they
 * hand over to Math.
 */

const EXP_PER_UNIT = 64;
const EXP_STEP = 1 / EXP_PER_UNIT;
const EXP_REACH = 24;
const EXP_ZERO = EXP_REACH * EXP_PER_UNIT;
/** exp(k / 64), for -24...24. */
const EXP_TABLE = Float64Array.from({ length: 2 * EXP_ZERO + 1 }, (_, k) =>
  Math.exp((k - EXP_ZERO) * EXP_STEP),
);

/**
 * e to the power x.
 *
 * exp(x) = exp(k/64) exp(r) with |r| <= 1/128; the series of exp(r) ends at r^5, so what is left out is below
 * r^6/720 = 4e-16. Relative error against Math.exp below 1e-15.
 */
export function fastExp(x: number): number {
  if (!(x > -EXP_REACH && x < EXP_REACH)) return Math.exp(x);
  const k = Math.floor(x * EXP_PER_UNIT + 0.5);
  const r = x - k * EXP_STEP;
  const rr = r * r;
  return (
    (EXP_TABLE[k + EXP_ZERO] as number) * (1 + r + rr * (0.5 + r * (1 / 6) + rr * (1 / 24 + r * (1 / 120))))
  );
}

const LOG_BITS = 8;
const LOG_CELLS = 1 << LOG_BITS;
const LOG_CELL_SHIFT = 20 - LOG_BITS;
const LOG_REACH = 32;
const EXPONENT_BIAS = 1023;
/** 1 / c and ln c of the middle c of each cell of [1, 2). */
const LOG_PER_C = Float64Array.from({ length: LOG_CELLS }, (_, i) => 1 / (1 + (i + 0.5) / LOG_CELLS));
const LOG_OF_C = LOG_PER_C.map((perC) => -Math.log(perC));
const PER_POWER_OF_TWO = Float64Array.from({ length: 2 * LOG_REACH }, (_, i) => 2 ** (LOG_REACH - i));

const bits = new Float64Array(1);
/** The half of the number that holds its exponent and leading digits: the second on a little-endian machine. */
const highHalf = new Int32Array(bits.buffer);
bits[0] = 1;
const HIGH = highHalf[1] === 0 ? 0 : 1;

/**
 * Natural logarithm.
 *
 * x = 2^e c (1 + r) with c the middle of one of 256 cells, so |r| < 1/512; the series of ln(1 + r) ends at r^5, so what
 * is left out is below r^6/6 = 1e-17. Absolute error against Math.log below 4e-15 (2^-32...2^31).
 */
export function fastLog(x: number): number {
  bits[0] = x;
  const high = highHalf[HIGH] as number;
  const e = (high >> 20) - EXPONENT_BIAS;
  if (!(e > -LOG_REACH && e < LOG_REACH)) return Math.log(x);
  const cell = (high >> LOG_CELL_SHIFT) & (LOG_CELLS - 1);
  const r = x * (PER_POWER_OF_TWO[e + LOG_REACH] as number) * (LOG_PER_C[cell] as number) - 1;
  const rr = r * r;
  return e * Math.LN2 + (LOG_OF_C[cell] as number) + (r + rr * (-0.5 + r * (1 / 3) + rr * (-0.25 + r * 0.2)));
}
