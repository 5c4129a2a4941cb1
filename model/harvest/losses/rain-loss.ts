import { type Coefficient, coefficient } from "../../coefficient.ts";
import type { Conditioning, CropKey } from "../../drying/keys.ts";
import { requireRange } from "../../limits.ts";
import type { LossStep } from "./loss-chain.ts";

const SCARBROUGH =
  "Scarbrough et al. 2005, Agron. J. 97:604, Fig. 1; g/kg taken from the scale of the results";

/** Dry matter leached from nearly dry grass hay, g per kg, over mm of rain: a x² + b x + c. */
export interface RainCurve {
  readonly a: Coefficient;
  readonly b: Coefficient;
  readonly c: Coefficient;
}

function published(a: number, b: number, c: number, at: string): RainCurve {
  const one = (value: number, unit: string) =>
    coefficient(value, unit, "published", `${at}: ${SCARBROUGH}`, [0, 76]);
  return { a: one(a, "g/kg/mm²"), b: one(b, "g/kg/mm"), c: one(c, "g/kg") };
}

export const RAIN_CURVES = {
  orchardgrass: published(-0.018, 2.39, 10.29, "orchardgrass at 13.0 % moisture, R2 0.894"),
  bermudagrass: published(-0.0081, 0.83, 0.49, "bermudagrass at 15.3 % moisture, R2 0.918"),
} as const;

const ORDER = "alfalfa loses more than red clover, red clover more than grasses (Rankin & Undersander)";

export const RAIN_LOSS = {
  rampMm: coefficient(
    2,
    "mm",
    "assumed",
    "constructed: straight from none at no rain to the curve at 2 mm",
    [0, 5],
  ),
  wettestWb: coefficient(
    0.7,
    "wb",
    "assumed",
    "constructed: at and above this the least share is leached",
    [0.6, 0.8],
  ),
  driestWb: coefficient(
    0.15,
    "wb",
    "assumed",
    "constructed: the published curves hold near 13-15 %",
    [0.13, 0.16],
  ),
  leastShare: coefficient(0.15, "-", "assumed", "constructed: fresh crop still loses a little", [0.05, 0.3]),
  alfalfa: coefficient(2.5, "of the grass curve", "assumed", `constructed: 2 to 3 times; ${ORDER}`, [2, 3]),
  redClover: coefficient(1.75, "of the grass curve", "assumed", `constructed: between; ${ORDER}`, [1.2, 2.5]),
  intensive: coefficient(
    3,
    "-",
    "published",
    "macerated crop lost over 3 times as much (Rotz, Davis & Abrams 1991)",
    [1, 3.5],
  ),
  /** 18 mm on a heavy alfalfa swath: over one hour, and what each further hour added, per cent of dry matter. */
  inOneHourPct: coefficient(
    5.5,
    "%",
    "published",
    "18 mm on a heavy alfalfa swath: 5.5 % over 1 h, 12.1 % over 7 h (University of Nebraska extension)",
    [5.5, 5.5],
  ),
  perHourPct: coefficient(
    1.1,
    "%/h",
    "published",
    "Rotz, Davis & Abrams 1991, for a fixed 18 mm",
    [1.1, 1.1],
  ),
  middleHours: coefficient(
    4,
    "h",
    "assumed",
    "constructed: the curve is taken to hold for the middle of 1-7 h",
    [1, 7],
  ),
  longestHours: coefficient(7, "h", "published", "the longest rain measured; longer counts as this", [1, 7]),
  rainyHourMm: coefficient(
    0.5,
    "mm",
    "assumed",
    "an hour with less counts as a part of an hour of rain",
    [0.2, 1],
  ),
  mostPct: coefficient(
    54,
    "%",
    "published",
    "the worst measured: 64 mm on nearly dry alfalfa (Rankin & Undersander)",
    [34, 54],
  ),
  spread: coefficient(
    Math.sqrt(10),
    "-",
    "assumed",
    "published results differ tenfold: this many times more or less",
    [2, 4],
  ),
} as const;

/**
 * The published regression, with a straight ramp at its foot and held past its top.
 *
 * @param rainMm 0 and more
 * @returns g of dry matter lost per kg
 * @example rainCurveGPerKg("orchardgrass", 25) // 58.79
 */
export function rainCurveGPerKg(grass: keyof typeof RAIN_CURVES, rainMm: number): number {
  requireRange("rainCurveGPerKg", "rainMm", rainMm, 0, 10_000);
  const { a, b, c } = RAIN_CURVES[grass];
  const ramp = RAIN_LOSS.rampMm.value;
  const xMm = Math.min(-b.value / (2 * a.value), Math.max(ramp, rainMm));
  return Math.min(1, rainMm / ramp) * (a.value * xMm * xMm + b.value * xMm + c.value);
}

/** How much of the loss of nearly dry hay a crop at this moisture suffers, 0.15-1. Constructed. */
export function rainDryness(moistureWb: number): number {
  const { wettestWb, driestWb, leastShare } = RAIN_LOSS;
  const share = (wettestWb.value - moistureWb) / (wettestWb.value - driestWb.value);
  return Math.min(1, Math.max(leastShare.value, share));
}

/** Loss of a species against grass. */
export function rainSpeciesFactor(crop: CropKey): number {
  return crop === "alfalfa" ? RAIN_LOSS.alfalfa.value : crop === "red-clover" ? RAIN_LOSS.redClover.value : 1;
}

/** A long gentle rain leaches more than a short hard one of the same amount: 1 at four hours, 0.63 at one, 1.38 at seven. */
export function rainDurationFactor(rainyHours: number): number {
  const { inOneHourPct, perHourPct, middleHours, longestHours } = RAIN_LOSS;
  const at = (hours: number) => inOneHourPct.value + perHourPct.value * (hours - 1);
  return at(Math.min(longestHours.value, Math.max(1, rainyHours))) / at(middleHours.value);
}

/** Rain of one hour, and the moisture of the crop that it fell on. */
export interface RainHour {
  readonly rainMm: number;
  readonly moistureWb: number;
}

/**
 * What the rain took, from the mower to the machine.
 *
 * The curve is applied to the rain that fell on crop of at least each dryness, and the results are summed over the
 * dryness. So a rain cut into hours loses what the whole loses, and more rain in any hour never loses less.
 */
export function rainLoss(crop: CropKey, conditioning: Conditioning, hours: readonly RainHour[]): LossStep {
  const rained = hours.filter(({ rainMm }) => rainMm > 0);
  const byDryness = rained
    .map(({ rainMm, moistureWb }) => ({ rainMm, dryness: rainDryness(moistureWb) }))
    .sort((a, b) => b.dryness - a.dryness);
  let fellMm = 0;
  let gPerKg = 0;
  for (const { rainMm, dryness } of byDryness) {
    const before = rainCurveGPerKg("orchardgrass", fellMm);
    fellMm += rainMm;
    gPerKg += dryness * (rainCurveGPerKg("orchardgrass", fellMm) - before);
  }
  const { rainyHourMm, intensive, mostPct, spread } = RAIN_LOSS;
  const rainyHours = rained.reduce((sum, { rainMm }) => sum + Math.min(1, rainMm / rainyHourMm.value), 0);
  const opened = conditioning === "intensive" ? intensive.value : 1;
  const pct = Math.min(
    mostPct.value,
    (gPerKg / 10) * rainSpeciesFactor(crop) * opened * rainDurationFactor(rainyHours),
  );
  return {
    step: "rain",
    pct,
    lowPct: pct / spread.value,
    highPct: Math.min(mostPct.value, pct * spread.value),
    source: `orchardgrass regression (${SCARBROUGH}), scaled by dryness, species and duration: the scaling is constructed`,
  };
}
