import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { saturationKPa } from "./air-terms.ts";
import type { SwathRequest } from "./request.ts";

/** Free water that a standing crop can carry, kg per kg dry matter (2 t/ha seen on a dewy crop). From memory. */
const MOST_CARRIED_KG_KG = 0.4;
/** Dew on a standing crop in a clear, calm, humid hour, mm/h: 0.14 mm a night (Ritter et al. 2019) over about 8 h. */
const DEW_MM_PER_H = 0.02;
/** Hours before the cut that still matter. */
const MEMORY_H = 18;

/**
 * Free water on the crop at cutting, mm per covered m², when it was not given: dew and rain of the hours before,
 * less what the sun and dry air took off the standing crop again.
 */
export function freeWaterAtCut(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  dryMatterKgM2: number,
): number {
  if (typeof swath.freeWaterMm === "number") return swath.freeWaterMm;
  const cutHour = Math.floor((cutUtcMs - weather.startUtcMs) / HOUR_MS);
  const standingKgM2 = dryMatterKgM2 * swath.coveredFraction;
  const mostMm = MOST_CARRIED_KG_KG * standingKgM2;
  let carriedMm = 0;
  for (let i = Math.max(0, cutHour - MEMORY_H); i < cutHour; i++) {
    const saturation = saturationKPa(weather.airTempC[i] as number);
    const deficitKPa = saturation - (weather.vapourPressureKPa[i] as number);
    const humid = deficitKPa < 0.1 * saturation;
    const solarWm2 = weather.solarWm2[i] as number;
    const clear = 1 - (weather.cloudFrac[i] as number);
    const dewMm = humid && solarWm2 < 10 && (weather.wind2mMps[i] as number) < 3 ? DEW_MM_PER_H * clear : 0;
    // Evaporation of a wet canopy: the radiation term at a slope share of two thirds, and a wind-free aerodynamic term.
    const dryingMm = (0.67 * 0.77 * solarWm2 * 3600) / 2.45e6 + 0.1 * deficitKPa;
    carriedMm = Math.min(mostMm, Math.max(0, carriedMm + (weather.rainMm[i] as number) + dewMm - dryingMm));
  }
  return carriedMm / swath.coveredFraction;
}
