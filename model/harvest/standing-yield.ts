import { type Coefficient, coefficient } from "../coefficient.ts";
import { SWATH_LIMITS } from "../drying/limits.ts";
import { type Limit, requireRange } from "../limits.ts";

/**
 * Dry matter of a crop from what people can count, weigh or measure. Every answer is t of dry matter per hectare; it is
 * not held against SWATH_LIMITS here, so that a caller can say which of its numbers is wrong.
 */

/** What may be counted, weighed and measured. Bounds are where the answer stays meaningful. */
export const STANDING_YIELD_LIMITS = {
  balesPerHa: { min: 0, max: 2000, unit: "bales/ha", minExcluded: true },
  baleKg: { min: 5, max: 1500, unit: "kg" },
  baleMoistureWb: { min: 0.05, max: 0.8, unit: "(wet-basis fraction; 18 % is 0.18)" },
  stripLengthM: { min: 0.3, max: 1000, unit: "m" },
  stripWidthM: { min: 0.3, max: 30, unit: "m" },
  stripFreshKg: { min: 0, max: 100_000, unit: "kg", minExcluded: true },
  plantHeightCm: { min: 30, max: 360, unit: "cm" },
} as const satisfies Record<string, Limit>;

export interface YieldEstimate {
  readonly dryMatterTHa: number;
  /** Lowest and highest that the published rules give, t/ha; null where what was measured decides alone. */
  readonly rangeTHa: readonly [number, number] | null;
  /** True where the rule is known to give too much, so that the lowest of the range is too high as well. */
  readonly tooHigh: boolean;
}

// Exact by definition: short ton of 2000 lb, acre of 43 560 square feet, international foot.
const T_PER_US_TON = 0.90718474;
export const HA_PER_ACRE = 0.40468564224;
const CM_PER_FT = 30.48;
const M2_PER_HA = 10_000;
const KG_PER_T = 1000;

const PENN_STATE =
  "Pennsylvania State University extension, Managing drought-stressed corn (Progressive Forage)";
const MISSOURI =
  "University of Missouri, reported in Turning drought-damaged crop into silage (Ag Proud); tons taken as short tons an acre";

/**
 * Corn without grain by its height. One report has one ton of dry matter a foot, three times the others and almost
 * surely a slip: it is left out.
 */
export const BARREN_CORN: Readonly<
  Record<
    "wetTonPerAcreFt" | "wetMoistureWb" | "lowDryTonPerAcreFt" | "highDryTonPerAcreFt" | "shortFt",
    Coefficient
  >
> = {
  wetTonPerAcreFt: coefficient(
    1,
    "short ton wet/(acre ft)",
    "published",
    `about 1 ton an acre at 70 % moisture for each foot of height: ${PENN_STATE}`,
    [1, 10],
  ),
  wetMoistureWb: coefficient(0.7, "-", "published", `the moisture of that ton: ${PENN_STATE}`, [0.7, 0.7]),
  lowDryTonPerAcreFt: coefficient(
    1 * 0.3,
    "short ton dry/(acre ft)",
    "published",
    `1 ton at 30 % dry matter a foot: ${MISSOURI}`,
    null,
  ),
  highDryTonPerAcreFt: coefficient(
    1.5 * 0.35,
    "short ton dry/(acre ft)",
    "published",
    `1.5 tons at 35 % dry matter a foot: ${MISSOURI}`,
    null,
  ),
  shortFt: coefficient(
    3,
    "ft",
    "published",
    `the rule gives too much for plants of 1 to 3 ft; no source says how much: ${PENN_STATE}`,
    [1, 3],
  ),
};

function requireWithin(where: string, name: keyof typeof STANDING_YIELD_LIMITS, value: number): void {
  const { min, max } = STANDING_YIELD_LIMITS[name];
  requireRange(where, name, value, min, max);
}

function measured(dryMatterTHa: number): YieldEstimate {
  return { dryMatterTHa, rangeTHa: null, tooHigh: false };
}

/**
 * Yield from the bales of an earlier cut: bales a hectare × weight × (1 - moisture). What mower, rake and baler left
 * lying is not in it, so the standing crop held more.
 *
 * @param balesPerHa bales per hectare of field
 * @param baleKg weight of one bale as it was weighed, kg
 * @param baleMoistureWb its moisture then, wet basis, 0-1
 * @returns t of dry matter per hectare
 * @throws RangeError outside STANDING_YIELD_LIMITS
 * @example yieldOfBales(10, 400, 0.15).dryMatterTHa // 3.4
 */
export function yieldOfBales(balesPerHa: number, baleKg: number, baleMoistureWb: number): YieldEstimate {
  requireWithin("yieldOfBales", "balesPerHa", balesPerHa);
  requireWithin("yieldOfBales", "baleKg", baleKg);
  requireWithin("yieldOfBales", "baleMoistureWb", baleMoistureWb);
  return measured((balesPerHa * baleKg * (1 - baleMoistureWb)) / KG_PER_T);
}

/**
 * Yield from a strip cut at the stubble that is meant and weighed fresh. One strip is one place: several along the field
 * tell more.
 *
 * @param lengthM length of the strip, m
 * @param widthM width of the strip, m
 * @param freshKg all that was cut on it, as it stood, kg
 * @param moistureWb moisture of the standing crop, wet basis, 0-1
 * @returns t of dry matter per hectare
 * @throws RangeError outside STANDING_YIELD_LIMITS, or for a moisture that no swath is cut at
 * @example yieldOfStrip(10, 2, 40, 0.8).dryMatterTHa // 4
 */
export function yieldOfStrip(
  lengthM: number,
  widthM: number,
  freshKg: number,
  moistureWb: number,
): YieldEstimate {
  requireWithin("yieldOfStrip", "stripLengthM", lengthM);
  requireWithin("yieldOfStrip", "stripWidthM", widthM);
  requireWithin("yieldOfStrip", "stripFreshKg", freshKg);
  const { min, max } = SWATH_LIMITS.initialMoistureWb;
  requireRange("yieldOfStrip", "moistureWb", moistureWb, min, max);
  const dryKgPerM2 = (freshKg * (1 - moistureWb)) / (lengthM * widthM);
  return measured((dryKgPerM2 * M2_PER_HA) / KG_PER_T);
}

/**
 * Yield of barren corn from its height: a rule of thumb for a whole stand, to be replaced by a weighed strip.
 *
 * @param heightCm height of the plants, cm
 * @returns t of dry matter per hectare with the range of the published rules; `tooHigh` for plants of 3 ft and less
 * @throws RangeError outside STANDING_YIELD_LIMITS
 * @example yieldOfBarrenCorn(152.4).dryMatterTHa // 3.36, of 5 ft
 */
export function yieldOfBarrenCorn(heightCm: number): YieldEstimate {
  requireWithin("yieldOfBarrenCorn", "plantHeightCm", heightCm);
  const { wetTonPerAcreFt, wetMoistureWb, lowDryTonPerAcreFt, highDryTonPerAcreFt, shortFt } = BARREN_CORN;
  const heightFt = heightCm / CM_PER_FT;
  const tHa = (tonPerAcreFt: number) => (tonPerAcreFt * heightFt * T_PER_US_TON) / HA_PER_ACRE;
  return {
    dryMatterTHa: tHa(wetTonPerAcreFt.value * (1 - wetMoistureWb.value)),
    rangeTHa: [tHa(lowDryTonPerAcreFt.value), tHa(highDryTonPerAcreFt.value)],
    tooHigh: heightFt <= shortFt.value + 1e-9,
  };
}
