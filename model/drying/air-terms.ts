import { FAO56_EQ11 } from "../weather/air.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { DryingParameters } from "./coefficients.ts";
import { dryingBranchAt } from "./isotherm.ts";

/** What the weather alone decides about an hour of drying: computed once, used by every cut. */
export interface AirTerms {
  readonly airTempC: number;
  /** Vapour pressure of the air, and saturation at air and at soil temperature, kPa. */
  readonly vapourPressureKPa: number;
  readonly airSaturationKPa: number;
  readonly soilSaturationKPa: number;
  /** Wind at 2 m, not below the least wind of open sky and, in sun, of convective gusts, m/s. */
  readonly windMps: number;
  /** Net radiation of a full cover at air temperature, less the ground's share, over rho cp; K m/s. */
  readonly radiationKMps: number;
  /** Aerodynamic conductance in neutral air, m/s. */
  readonly neutralMps: number;
  /** Conductance of the swath's own thermal radiation, m/s. */
  readonly radiativeMps: number;
  readonly psychrometricKPaPerC: number;
  /** rho cp / (gamma lambda) x 3600: mm/h of water per (m/s x kPa). */
  readonly vapourMmPerH: number;
  /** Buoyancy number per kelvin of swath above air. */
  readonly buoyancyPerK: number;
  readonly isDay: boolean;
  /** Oswin's A and C of the drying branch at air temperature. */
  readonly dryingA: number;
  readonly dryingC: number;
}

const STEFAN_BOLTZMANN = 5.670374e-8; // W m-2 K-4
const VON_KARMAN = 0.41;
const GRAVITY = 9.80665; // m s-2
const DRY_AIR_GAS = 287.05; // J kg-1 K-1
const AIR_HEAT = 1013; // J kg-1 K-1, FAO-56
const VAPOUR_RATIO = 0.622;
/** Net radiation above which the ground takes heat as by day, W/m². */
const DAY_SUN_WM2 = 10;
const FULL_SUN_WM2 = 1000;

/** Saturation vapour pressure, kPa, FAO-56 eq. 11, without the range check that the step need not pay for. */
export function saturationKPa(tempC: number): number {
  return FAO56_EQ11.aKPa * Math.exp((FAO56_EQ11.b * tempC) / (tempC + FAO56_EQ11.cC));
}

/** The terms of hour `i`. Soil temperature under the swath is taken as the mean air temperature of the last 24 h. */
export function airTerms(
  weather: HourlyWeather,
  i: number,
  soilTempC: number,
  p: DryingParameters,
): AirTerms {
  const airTempC = weather.airTempC[i] as number;
  const vapourPressureKPa = weather.vapourPressureKPa[i] as number;
  const solarWm2 = weather.solarWm2[i] as number;
  const pressureKPa = weather.pressureKPa[i] as number;
  const cloud = weather.cloudFrac[i] as number;
  const kelvin = airTempC + 273.15;
  const gustMps = p.sunGustMps * Math.cbrt(solarWm2 / FULL_SUN_WM2);
  const windMps = Math.max(p.leastWindMps, gustMps, weather.wind2mMps[i] as number);
  const rhoCp = (AIR_HEAT * pressureKPa * 1000) / (DRY_AIR_GAS * kelvin);
  const latentJPerKg = (2450 - 2.4 * (airTempC - 20)) * 1000;
  const psychrometricKPaPerC = (AIR_HEAT * pressureKPa) / (VAPOUR_RATIO * latentJPerKg);
  const clearEmissivity = Math.min(1, p.clearSkyEmissivity * ((vapourPressureKPa * 10) / kelvin) ** (1 / 7));
  const skyEmissivity = clearEmissivity + p.cloudEmissivity * cloud * (1 - clearEmissivity);
  const black = p.emissivity * STEFAN_BOLTZMANN * kelvin ** 3;
  const netWm2 = (1 - p.albedo) * solarWm2 + black * kelvin * (skyEmissivity - 1);
  const isDay = solarWm2 > DAY_SUN_WM2;
  const kept = netWm2 * (1 - (isDay ? p.groundShareDay : p.groundShareNight));
  const airSaturationKPa = saturationKPa(airTempC);
  const { a, c } = dryingBranchAt(airTempC);
  const logHeight = Math.log(p.heightAboveSwathM / p.roughnessM);
  return {
    airTempC,
    vapourPressureKPa,
    airSaturationKPa,
    soilSaturationKPa: saturationKPa(soilTempC),
    windMps,
    radiationKMps: kept / rhoCp,
    neutralMps: (VON_KARMAN ** 2 * windMps) / logHeight ** 2,
    radiativeMps: (4 * black) / rhoCp,
    psychrometricKPaPerC,
    vapourMmPerH: (3600 * rhoCp) / (psychrometricKPaPerC * latentJPerKg),
    buoyancyPerK: (p.freeConvection * GRAVITY * p.heightAboveSwathM) / (kelvin * windMps * windMps),
    isDay,
    dryingA: a,
    dryingC: c,
  };
}

/** Mean air temperature of the 24 h that end with each hour, °C (fewer at the start of the weather). */
export function soilTemperatures(weather: HourlyWeather): Float64Array {
  const mean = new Float64Array(weather.count);
  let sum = 0;
  for (let i = 0; i < weather.count; i++) {
    sum += weather.airTempC[i] as number;
    if (i >= 24) sum -= weather.airTempC[i - 24] as number;
    mean[i] = sum / Math.min(24, i + 1);
  }
  return mean;
}
