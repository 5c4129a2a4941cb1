import { SUB_STEPS_PER_HOUR, sunThroughHours } from "./sun.ts";

/** Solar radiation under a clear and a cloudy sky, and the net longwave loss. */

const RAD = Math.PI / 180;

/** Haurwitz (1945, 1946), Journal of Meteorology, with the coefficient that is in general use. W/m². */
export const HAURWITZ = { scaleWm2: 1098, extinction: 0.059 } as const;

/** Kasten & Czeplak (1980), Solar Energy 24:177-189, Hamburg: global radiation of a cloudy sky over a clear one. */
export const KASTEN_CZEPLAK = {
  reduction: 0.75,
  exponent: 3.4,
  clearScaleWm2: 910,
  clearOffsetWm2: 30,
  diffuseClear: 0.3,
  diffuseCloud: 0.7,
} as const;

/** Stefan-Boltzmann as FAO-56 rounds it, MJ K⁻⁴ m⁻² per day and per hour. */
export const FAO56_STEFAN_BOLTZMANN = { dailyMJ: 4.903e-9, hourlyMJ: 2.043e-10 } as const;

/** Clear-sky global radiation from the sine of the sun's apparent elevation, W/m²; 0 below the horizon. */
export function haurwitzOfSineWm2(sine: number): number {
  return sine > 0 ? HAURWITZ.scaleWm2 * sine * Math.exp(-HAURWITZ.extinction / sine) : 0;
}

/**
 * Clear-sky global horizontal radiation, W/m².
 *
 * Source: Haurwitz (1945, 1946). From memory: about 5 % either way for clear
 * air, more light at high sites, 10 % less through haze.
 * @param elevationDeg apparent elevation of the sun, degrees
 */
export function haurwitzWm2(elevationDeg: number): number {
  return haurwitzOfSineWm2(Math.sin(elevationDeg * RAD));
}

/** The clear sky of Kasten & Czeplak (1980), W/m². Shown beside Haurwitz; about 15 % darker at high sun. */
export function kastenCzeplakClearWm2(elevationDeg: number): number {
  const { clearScaleWm2, clearOffsetWm2 } = KASTEN_CZEPLAK;
  return Math.max(0, clearScaleWm2 * Math.sin(elevationDeg * RAD) - clearOffsetWm2);
}

/** Mean of clear-sky radiation over each hour, W/m², and whether the sun was up in it. */
export function clearSkyHours(
  startUtcMs: number,
  count: number,
  latitude: number,
  longitude: number,
): { readonly clearSkyWm2: Float64Array; readonly daylight: Uint8Array } {
  const { sines, daylight } = sunThroughHours(startUtcMs, count, latitude, longitude);
  const clearSkyWm2 = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    if (daylight[i] === 0) continue;
    let sum = 0;
    for (let k = 0; k < SUB_STEPS_PER_HOUR; k++)
      sum += haurwitzOfSineWm2(sines[i * SUB_STEPS_PER_HOUR + k] ?? 0);
    clearSkyWm2[i] = sum / SUB_STEPS_PER_HOUR;
  }
  return { clearSkyWm2, daylight };
}

/** Share of clear-sky radiation that comes through a cloud cover, -. Hourly error near 100 W/m² at single hours. */
export function cloudTransmission(cloudFrac: number): number {
  return 1 - KASTEN_CZEPLAK.reduction * cloudFrac ** KASTEN_CZEPLAK.exponent;
}

/** Diffuse share of global radiation under a cloud cover, -. Kasten & Czeplak (1980). */
export function diffuseShare(cloudFrac: number): number {
  return KASTEN_CZEPLAK.diffuseClear + KASTEN_CZEPLAK.diffuseCloud * cloudFrac ** 2;
}

/** Cloud cover that lets this share of clear-sky radiation through: the inverse of `cloudTransmission`, held to 0-1. */
export function cloudOfTransmission(share: number): number {
  const missing = (1 - share) / KASTEN_CZEPLAK.reduction;
  if (missing <= 0) return 0;
  return missing >= 1 ? 1 : missing ** (1 / KASTEN_CZEPLAK.exponent);
}

/** Clear-sky radiation of FAO-56 eq. 37 from extraterrestrial radiation, in the unit of the latter. */
export function clearSkyOfExtraterrestrial(extraterrestrial: number, elevationM: number): number {
  return (0.75 + 2e-5 * elevationM) * extraterrestrial;
}

/** Daily radiation from sunshine hours, MJ/m². Ångström, FAO-56 eq. 35. */
export function solarOfSunshineMJM2(extraterrestrial: number, sunshineH: number, daylightH: number): number {
  return (0.25 + (0.5 * sunshineH) / daylightH) * extraterrestrial;
}

/** Solar radiation that short grass absorbs (albedo 0.23). FAO-56 eq. 38. */
export function netShortwave(solar: number): number {
  return (1 - 0.23) * solar;
}

/** FAO-56 eq. 39's last factor: 1 under a clear sky, falling with cloud. */
export function fao56CloudFactor(solarOverClearSky: number): number {
  return 1.35 * Math.min(1, solarOverClearSky) - 0.35;
}

function netEmissivity(vapourKPa: number): number {
  return 0.34 - 0.14 * Math.sqrt(vapourKPa);
}

/** Net longwave loss of a day, MJ/m². FAO-56 eq. 39. */
export function netLongwaveDailyMJM2(
  maxTempC: number,
  minTempC: number,
  vapourKPa: number,
  cloudFactor: number,
  stefanBoltzmannMJ: number = FAO56_STEFAN_BOLTZMANN.dailyMJ,
): number {
  const fourth = 0.5 * ((maxTempC + 273.16) ** 4 + (minTempC + 273.16) ** 4);
  return stefanBoltzmannMJ * fourth * netEmissivity(vapourKPa) * cloudFactor;
}

/** Net longwave loss of an hour, MJ/m². FAO-56 eq. 39 with the hourly constant (p. 74). */
export function netLongwaveHourlyMJM2(
  tempC: number,
  vapourKPa: number,
  cloudFactor: number,
  stefanBoltzmannMJ: number = FAO56_STEFAN_BOLTZMANN.hourlyMJ,
): number {
  return stefanBoltzmannMJ * (tempC + 273.16) ** 4 * netEmissivity(vapourKPa) * cloudFactor;
}
