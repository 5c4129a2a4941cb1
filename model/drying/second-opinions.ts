import { type Coefficient, coefficient } from "../coefficient.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { referenceEtHours } from "../weather/reference-et.ts";
import { saturationKPa } from "./air-terms.ts";
import { CROP_CATALOGUE } from "./crops.ts";
import { dryingEquilibriumDb } from "./isotherm.ts";
import type { SoilClass } from "./keys.ts";
import { dryBasis, wetBasis } from "./moisture.ts";
import type { Operation } from "./operations.ts";
import { coverAfter } from "./operations.ts";
import type { SwathRequest } from "./request.ts";
import { coveredGM2 } from "./swath-state.ts";

/** A published way to the same answer, hour by hour beside the course: first hour = the hour of the cut. */
export interface SecondOpinion {
  readonly name: string;
  readonly source: string;
  /** Moisture at the end of each hour, wet basis. */
  readonly moistureWb: Float64Array;
}

const DAY_MS = 24 * HOUR_MS;

const ROTZ_CHEN_SOURCE =
  "Rotz & Chen 1985, Alfalfa drying model for the field environment, Trans. ASAE 28:1686-1691; coefficients from memory";

function remembered(value: number, unit: string, source = ROTZ_CHEN_SOURCE): Coefficient {
  return coefficient(value, unit, "from-memory", source);
}

/** The 1985 regression: DR = (SI (1 + 9.03 AR) + 43.8 VPD) / (61.4 SM + SD (1.82 - 0.83 DAY)(1.68 + 24.8 AR) + 2767). */
export const ROTZ_CHEN_1985 = {
  agent: remembered(9.03, "-"),
  vpd: remembered(43.8, "W/m²/kPa"),
  soil: remembered(61.4, "1/%"),
  density: remembered(1.82, "m²/g"),
  densityFirstDay: remembered(0.83, "m²/g"),
  densityPlain: remembered(1.68, "-"),
  densityAgent: remembered(24.8, "-"),
  rest: remembered(2767, "W h/m²"),
  agentRate: remembered(0.093, "g/g", "an ordinary carbonate dressing: 280 L/ha on 3 t/ha; derived"),
  soilDryPct: remembered(9, "% db", "surface soil of the regression: 9 dry to 20 wet is its usual range"),
  soilMoistPct: remembered(14, "% db", "between dry and wet"),
  soilWetPct: remembered(20, "% db", "surface soil of the regression: 9 dry to 20 wet is its usual range"),
} as const;

const REGRESSION_SOIL: Readonly<Record<SoilClass, Coefficient>> = {
  dry: ROTZ_CHEN_1985.soilDryPct,
  moist: ROTZ_CHEN_1985.soilMoistPct,
  wet: ROTZ_CHEN_1985.soilWetPct,
};

const EVAPORATION_SOURCE =
  "Accumulated evaporation, M = M0 exp(-k E): k derived from a pan digest (UC ANR 2013) and Pitt 1985, J. Agric. Sci.; reference ET over 0.75 as pan";

/** Accumulated evaporation: k = 0.224 per mm of pan at 448 g/m², falling with density to the power 0.6. */
export const EVAPORATION_SUM = {
  perMm: coefficient(0.224, "1/mm", "fitted", EVAPORATION_SOURCE),
  densityGM2: coefficient(448, "g/m²", "published", EVAPORATION_SOURCE),
  power: coefficient(0.6, "-", "fitted", EVAPORATION_SOURCE, [0.5, 0.65]),
  panCoefficient: coefficient(0.75, "-", "from-memory", "reference ET over class-A pan, 0.7-0.8", [0.7, 0.8]),
} as const;

/** Unconditioned against conditioned alfalfa in both opinions: 0.55-0.65, from memory. */
export const UNCONDITIONED: Coefficient = {
  value: 0.6,
  unit: "-",
  origin: "from-memory",
  source: "an unconditioned first cut dries at about 0.55-0.65 of the conditioned rate",
  validRange: [0.55, 0.65],
};

/** Rate constant of the 1985 regression, 1/h. `vpdKPa` kPa, `densityGM2` g per covered m². */
export function rotzChenRatePerH(
  solarWm2: number,
  vpdKPa: number,
  soilPct: number,
  densityGM2: number,
  firstDay: boolean,
  agentRate = 0,
): number {
  const c = ROTZ_CHEN_1985;
  const dayTerm = c.density.value - (firstDay ? c.densityFirstDay.value : 0);
  const densityTerm = densityGM2 * dayTerm * (c.densityPlain.value + c.densityAgent.value * agentRate);
  return (
    (solarWm2 * (1 + c.agent.value * agentRate) + c.vpd.value * vpdKPa) /
    (c.soil.value * soilPct + densityTerm + c.rest.value)
  );
}

/** Rate constant of the evaporation sum, per mm of reference ET. */
export function evaporationRatePerMm(densityGM2: number): number {
  const { perMm, densityGM2: at, power, panCoefficient } = EVAPORATION_SUM;
  return (perMm.value * (densityGM2 / at.value) ** -power.value) / panCoefficient.value;
}

/**
 * The two published opinions on the same hours as the course. Neither knows leaf from stem, rain or dew; both are held
 * to the drying equilibrium of the air, which the regression itself takes as zero.
 *
 * @throws RangeError when the cut lies outside the weather
 */
export function secondOpinions(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
): readonly SecondOpinion[] {
  const first = Math.floor((cutUtcMs - weather.startUtcMs) / HOUR_MS);
  if (!(first >= 0 && first < weather.count)) {
    throw new RangeError(
      `secondOpinions: cutUtcMs must lie within the weather's ${weather.count} hours, got hour ${first}`,
    );
  }
  const etMm = referenceEtOf(weather);
  const factor =
    CROP_CATALOGUE[swath.crop].opinionFactor * (swath.conditioning === "none" ? UNCONDITIONED.value : 1);
  const soilPct = REGRESSION_SOIL[swath.soil].value;
  const agentRate = swath.dryingAgent ? ROTZ_CHEN_1985.agentRate.value : 0;
  const regression = new Float64Array(weather.count - first);
  const evaporation = new Float64Array(weather.count - first);
  let regressionDb = dryBasis(swath.initialMoistureWb);
  let evaporationDb = regressionDb;
  let densityGM2 = Number.NaN;
  let perMm = Number.NaN;
  for (let i = 0; i < regression.length; i++) {
    const hour = first + i;
    const endMs = weather.startUtcMs + (hour + 1) * HOUR_MS;
    const spanH = i === 0 ? (endMs - cutUtcMs) / HOUR_MS : 1;
    const nowGM2 = densityAt(swath, operations, endMs - HOUR_MS);
    if (nowGM2 !== densityGM2) {
      densityGM2 = nowGM2;
      perMm = evaporationRatePerMm(densityGM2) * factor;
    }
    const tempC = weather.airTempC[hour] as number;
    const saturation = saturationKPa(tempC);
    const vapour = weather.vapourPressureKPa[hour] as number;
    const vpdKPa = Math.max(0, saturation - vapour);
    const restDb = dryingEquilibriumDb(tempC, vapour / saturation);
    const firstDay = endMs - cutUtcMs < DAY_MS && sameSun(weather, first, hour);
    const rate = rotzChenRatePerH(
      weather.solarWm2[hour] as number,
      vpdKPa,
      soilPct,
      densityGM2,
      firstDay,
      agentRate,
    );
    regressionDb = fall(regressionDb, restDb, rate * factor * spanH);
    const evaporated = Math.max(0, etMm[hour] as number) * spanH;
    evaporationDb = fall(evaporationDb, restDb, perMm * evaporated);
    regression[i] = wetBasis(regressionDb);
    evaporation[i] = wetBasis(evaporationDb);
  }
  return [
    { name: "Rotz & Chen 1985", source: ROTZ_CHEN_SOURCE, moistureWb: regression },
    { name: "Evaporation sum", source: EVAPORATION_SOURCE, moistureWb: evaporation },
  ];
}

/** Reference ET already worked out, by weather: only a saving, the same weather always gives the same hours. */
const ET_HOURS = new WeakMap<HourlyWeather, Float64Array>();

function referenceEtOf(weather: HourlyWeather): Float64Array {
  const known = ET_HOURS.get(weather);
  if (known) return known;
  const hours = referenceEtHours(weather);
  ET_HOURS.set(weather, hours);
  return hours;
}

function fall(moistureDb: number, restDb: number, exponent: number): number {
  return moistureDb <= restDb ? moistureDb : restDb + (moistureDb - restDb) * Math.exp(-exponent);
}

/** Density after the passes so far; their dry-matter loss is too small to matter to either opinion. */
function densityAt(swath: SwathRequest, operations: readonly Operation[], utcMs: number): number {
  let covered = swath.coveredFraction;
  for (const pass of operations) if (pass.atUtcMs <= utcMs) covered = coverAfter(pass, covered);
  return coveredGM2(swath.dryMatterTHa, covered);
}

/** True until the first sunset after the cut: the regression's "day of mowing". */
function sameSun(weather: HourlyWeather, cutHour: number, hour: number): boolean {
  for (let i = cutHour + 1; i <= hour; i++) {
    if (weather.daylight[i - 1] === 1 && weather.daylight[i] === 0) return false;
  }
  return true;
}
