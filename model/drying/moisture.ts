/** Wet basis from dry basis: kg water per kg of wet material, 0-1. */
export function wetBasis(moistureDb: number): number {
  return moistureDb / (1 + moistureDb);
}

/** Dry basis from wet basis: kg water per kg dry matter. 0.80 wb = 4.00 db. */
export function dryBasis(moistureWb: number): number {
  return moistureWb / (1 - moistureWb);
}
