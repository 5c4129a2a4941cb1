import {
  psychrometricKPaPerC,
  saturationSlopeKPaPerC,
  saturationVapourPressureKPa,
  vapourPressureDeficitKPa,
} from "./air.ts";
import { HOUR_MS } from "./clock.ts";
import type { HourlyWeather } from "./hourly.ts";
import {
  clearSkyOfExtraterrestrial,
  FAO56_STEFAN_BOLTZMANN,
  fao56CloudFactor,
  netLongwaveHourlyMJM2,
  netShortwave,
} from "./radiation.ts";
import { dayOfYear, extraterrestrialHourlyMJM2 } from "./sun.ts";
import { WM2_TO_MJ_M2_H } from "./units.ts";

/** Reference evapotranspiration of well-watered grass (short) or alfalfa (tall): FAO-56 and ASCE-EWRI (2005). */

/** One kind of reference surface: cn in K mm s³ Mg⁻¹ per day or hour, cd in s/m, soil heat as a share of net radiation. */
export interface ReferenceSurface {
  readonly cn: number;
  readonly cd: { readonly day: number; readonly night: number };
  readonly soilHeatShare: { readonly day: number; readonly night: number };
  readonly stefanBoltzmannMJ: number;
}

/** ASCE's rounding of Stefan-Boltzmann, MJ K⁻⁴ m⁻² per hour; FAO-56 prints 2.043e-10. */
const ASCE_STEFAN_BOLTZMANN_HOURLY_MJ = 2.042e-10;

/** FAO-56 eq. 53 with eqs 45-46; ASCE-EWRI (2005) Table 1 with eqs 65-66. */
export const HOURLY_SURFACES = {
  fao56: {
    cn: 37,
    cd: { day: 0.34, night: 0.34 },
    soilHeatShare: { day: 0.1, night: 0.5 },
    stefanBoltzmannMJ: FAO56_STEFAN_BOLTZMANN.hourlyMJ,
  },
  asceShort: {
    cn: 37,
    cd: { day: 0.24, night: 0.96 },
    soilHeatShare: { day: 0.1, night: 0.5 },
    stefanBoltzmannMJ: ASCE_STEFAN_BOLTZMANN_HOURLY_MJ,
  },
  asceTall: {
    cn: 66,
    cd: { day: 0.25, night: 1.7 },
    soilHeatShare: { day: 0.04, night: 0.2 },
    stefanBoltzmannMJ: ASCE_STEFAN_BOLTZMANN_HOURLY_MJ,
  },
} as const satisfies Record<string, ReferenceSurface>;

/** Daily constants: FAO-56 eq. 6 equals ASCE's short surface. ASCE-EWRI (2005) Table 1. */
export const DAILY_SURFACES = {
  short: { cn: 900, cd: 0.34 },
  tall: { cn: 1600, cd: 0.38 },
} as const;

/** The terms of the Penman-Monteith equation, over a day or an hour. */
export interface PenmanMonteithTerms {
  readonly cn: number;
  readonly cd: number;
  readonly tempC: number;
  readonly wind2mMps: number;
  readonly deficitKPa: number;
  readonly slopeKPaPerC: number;
  readonly psychrometricKPaPerC: number;
  readonly netRadiationMJM2: number;
  readonly soilHeatMJM2: number;
}

/** Reference evapotranspiration from its terms, mm over the same time. FAO-56 eq. 6 and 53; ASCE-EWRI (2005) eq. 1. */
export function penmanMonteithMm(terms: PenmanMonteithTerms): number {
  const { slopeKPaPerC: slope, psychrometricKPaPerC: gamma, wind2mMps: u2 } = terms;
  const energy = 0.408 * slope * (terms.netRadiationMJM2 - terms.soilHeatMJM2);
  const drying = gamma * (terms.cn / (terms.tempC + 273)) * u2 * terms.deficitKPa;
  return (energy + drying) / (slope + gamma * (1 + terms.cd * u2));
}

export interface HourOfAir {
  readonly tempC: number;
  readonly vapourPressureKPa: number;
  readonly wind2mMps: number;
  readonly pressureKPa: number;
  readonly solarMJM2: number;
  /** 1 under a clear sky, 0.05 under a full cover: see `fao56CloudFactor`. */
  readonly cloudFactor: number;
}

export interface HourlyEt {
  readonly netLongwaveMJM2: number;
  readonly netRadiationMJM2: number;
  readonly soilHeatMJM2: number;
  /** mm in the hour; slightly negative on dewy nights. */
  readonly etMm: number;
}

/** Reference evapotranspiration of an hour, with its radiation terms. It is day while net radiation is not negative. */
export function hourlyEt(hour: HourOfAir, surface: ReferenceSurface): HourlyEt {
  const netLongwaveMJM2 = netLongwaveHourlyMJM2(
    hour.tempC,
    hour.vapourPressureKPa,
    hour.cloudFactor,
    surface.stefanBoltzmannMJ,
  );
  const netRadiationMJM2 = netShortwave(hour.solarMJM2) - netLongwaveMJM2;
  const part = netRadiationMJM2 >= 0 ? "day" : "night";
  const soilHeatMJM2 = surface.soilHeatShare[part] * netRadiationMJM2;
  const etMm = penmanMonteithMm({
    cn: surface.cn,
    cd: surface.cd[part],
    tempC: hour.tempC,
    wind2mMps: hour.wind2mMps,
    deficitKPa: vapourPressureDeficitKPa(hour.tempC, hour.vapourPressureKPa),
    slopeKPaPerC: saturationSlopeKPaPerC(hour.tempC),
    psychrometricKPaPerC: psychrometricKPaPerC(hour.pressureKPa),
    netRadiationMJM2,
    soilHeatMJM2,
  });
  return { netLongwaveMJM2, netRadiationMJM2, soilHeatMJM2, etMm };
}

export interface DayOfAir {
  readonly maxTempC: number;
  readonly minTempC: number;
  readonly vapourPressureKPa: number;
  readonly wind2mMps: number;
  readonly pressureKPa: number;
  readonly netRadiationMJM2: number;
}

/** Reference evapotranspiration of a day, mm. FAO-56 eq. 6 with the mean of both extremes and no soil heat. */
export function dailyEtMm(day: DayOfAir, surface: { readonly cn: number; readonly cd: number }): number {
  const tempC = (day.maxTempC + day.minTempC) / 2;
  const saturation =
    (saturationVapourPressureKPa(day.maxTempC) + saturationVapourPressureKPa(day.minTempC)) / 2;
  return penmanMonteithMm({
    cn: surface.cn,
    cd: surface.cd,
    tempC,
    wind2mMps: day.wind2mMps,
    deficitKPa: Math.max(0, saturation - day.vapourPressureKPa),
    slopeKPaPerC: saturationSlopeKPaPerC(tempC),
    psychrometricKPaPerC: psychrometricKPaPerC(day.pressureKPa),
    netRadiationMJM2: day.netRadiationMJM2,
    soilHeatMJM2: 0,
  });
}

/** Daily reference evapotranspiration from temperatures alone, mm. Hargreaves, FAO-56 eq. 52. */
export function hargreavesMm(maxTempC: number, minTempC: number, extraterrestrialMJM2: number): number {
  const tempC = (maxTempC + minTempC) / 2;
  return 0.0023 * (tempC + 17.8) * Math.sqrt(maxTempC - minTempC) * 0.408 * extraterrestrialMJM2;
}

/** Sun lower than this, rad, says nothing about the cloud: the ratio of the hours before is kept. ASCE-EWRI (2005) p. 36. */
const LOW_SUN_RAD = 0.3;

/** Radiation over clear sky when no hour of the weather can tell. FAO-56 p. 75: 0.4-0.6 humid, 0.7-0.8 arid. */
const UNKNOWN_SOLAR_SHARE = 0.6;

/**
 * Hourly reference evapotranspiration of short grass through prepared weather, mm per hour (FAO-56 hourly form).
 * The cloud of a night is that of the last hours of the day before it.
 */
export function referenceEtHours(weather: HourlyWeather): Float64Array {
  const { latitude, longitude, elevationM } = weather.site;
  const lookMJM2 = Math.sin(LOW_SUN_RAD) * 4.92;
  const shares = new Float64Array(weather.count).fill(Number.NaN);
  let last = Number.NaN;
  let first = Number.NaN;
  for (let i = 0; i < weather.count; i++) {
    const middleMs = weather.startUtcMs + (i + 0.5) * HOUR_MS;
    const utcHour = (middleMs % (24 * HOUR_MS)) / HOUR_MS;
    const day = dayOfYear(middleMs, (longitude / 15) * HOUR_MS);
    const extraterrestrial = extraterrestrialHourlyMJM2(latitude, longitude, day, utcHour);
    if (extraterrestrial >= lookMJM2) {
      const clear = clearSkyOfExtraterrestrial(extraterrestrial, elevationM);
      const share = ((weather.solarWm2[i] as number) * WM2_TO_MJ_M2_H) / clear;
      last = Math.min(1, Math.max(0.3, share));
      if (Number.isNaN(first)) first = last;
    }
    shares[i] = last;
  }
  if (Number.isNaN(first)) first = UNKNOWN_SOLAR_SHARE;
  return Float64Array.from({ length: weather.count }, (_, i) => {
    const share = shares[i] as number;
    return hourlyEt(
      {
        tempC: weather.airTempC[i] as number,
        vapourPressureKPa: weather.vapourPressureKPa[i] as number,
        wind2mMps: weather.wind2mMps[i] as number,
        pressureKPa: weather.pressureKPa[i] as number,
        solarMJM2: (weather.solarWm2[i] as number) * WM2_TO_MJ_M2_H,
        cloudFactor: fao56CloudFactor(Number.isNaN(share) ? first : share),
      },
      HOURLY_SURFACES.fao56,
    ).etMm;
  });
}
