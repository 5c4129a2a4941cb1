/** Where a coefficient's value comes from. "fitted" names in its source the checks it was fitted to. */
export type Origin = "published" | "fitted" | "assumed" | "from-memory";

/** One coefficient of the model, with all that a reader needs to doubt it. */
export interface Coefficient {
  readonly value: number;
  readonly unit: string;
  readonly origin: Origin;
  readonly source: string;
  /** The range in which the value was seen to hold or is believed to; null where the source states none. */
  readonly validRange: readonly [number, number] | null;
}

/** A coefficient's record in one line. */
export function coefficient(
  value: number,
  unit: string,
  origin: Origin,
  source: string,
  validRange: readonly [number, number] | null = null,
): Coefficient {
  return { value, unit, origin, source, validRange };
}
