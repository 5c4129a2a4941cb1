/**
 * The accepted range of one quantity. Each quantity's limit is written once, beside the model that uses it,
 * and read by the model's own checks, by the server's schemas and by the page's fields.
 */
export interface Limit {
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  /** True where `min` itself is refused, as for a yield of 0. */
  readonly minExcluded?: boolean;
}

/** Longest name of a field, a feed, a machine, a person or a place, characters. */
export const NAME_LENGTH = 120;

/** One thing wrong with an input: where, of which kind, and a sentence that names the value and the limit. */
export interface Issue {
  readonly path: string;
  readonly code: string;
  readonly message: string;
}

/** The answer, or everything that was wrong with the question. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** True when the value is a finite number inside the limit. NaN is outside every limit. */
export function within(value: number, limit: Limit): boolean {
  const aboveMin = limit.minExcluded ? value > limit.min : value >= limit.min;
  return aboveMin && value <= limit.max;
}

/** The limit in words: "must be above 0 and at most 30 t/ha". */
export function limitInWords(limit: Limit): string {
  const unit = limit.unit === "" ? "" : ` ${limit.unit}`;
  return `must be ${limit.minExcluded ? "above" : "at least"} ${limit.min} and at most ${limit.max}${unit}`;
}

/** The issue for a value outside its limit, or null when it is inside. */
export function limitIssue(path: string, value: number, limit: Limit): Issue | null {
  if (within(value, limit)) return null;
  return {
    path,
    code: "out-of-range",
    message: `${path}: got ${String(value)}, ${limitInWords(limit)}`,
  };
}

/**
 * Guards a model function against a caller's mistake.
 *
 * @throws RangeError naming function, argument, value and limit
 */
export function requireRange(where: string, name: string, value: number, min: number, max: number): void {
  if (!(value >= min && value <= max)) {
    throw new RangeError(`${where}: ${name} must be in [${min}, ${max}], got ${value}`);
  }
}
