import { type Coefficient, coefficient } from "../coefficient.ts";
import type { Conditioning } from "./keys.ts";

/** How a treatment opens leaf and stem: factors on their conductance. */
export interface Opening {
  readonly leaf: Coefficient;
  readonly stem: Coefficient;
}

function factor(
  value: number,
  origin: Coefficient["origin"],
  source: string,
  range: readonly [number, number],
): Coefficient {
  return coefficient(value, "-", origin, source, range);
}

export const CONDITIONING_CATALOGUE: Readonly<Record<Conditioning, Opening>> = {
  none: {
    leaf: factor(1, "assumed", "the reference", [1, 1]),
    stem: factor(1, "assumed", "the reference", [1, 1]),
  },
  roll: {
    leaf: factor(
      1.25,
      "assumed",
      "chosen so that roll over none to 68 % lies in the published range; crimping on day 1 is x1.45-1.55 of the whole plant (Rennie 2012)",
      [1, 1.6],
    ),
    stem: factor(
      1.9,
      "fitted",
      "crushed against whole alfalfa stem is x2 to x3 in a thin layer; 1.9 keeps roll over none to 20 % under the published x1.8 of a swath",
      [1.5, 3],
    ),
  },
  impeller: {
    leaf: factor(1.4, "assumed", "flail faster than roll (Borreani et al. 1999)", [1.1, 1.8]),
    stem: factor(1.9, "assumed", "as roll", [1.5, 3]),
  },
  intensive: {
    leaf: factor(1.5, "fitted", "maceration x2.1 against a windrow, to 30 % wb", [1.2, 2.5]),
    stem: factor(10, "fitted", "maceration x2.1 against a windrow, to 30 % wb", [4, 12]),
  },
};

/** Carbonate solution sprayed at the mower: factor on leaf and stem conductance. */
export const DRYING_AGENT: Coefficient = factor(
  1.5,
  "fitted",
  "fitted to +32 % over 29 trials of potassium carbonate (Rotz & Thomas 1988)",
  [1.2, 1.6],
);
