import { saturationKPa } from "../drying/air-terms.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { ERROR_SHAPE, errorAtLead } from "./error-growth.ts";
import { normalAtShare } from "./normal.ts";
import { seededRandom, streamSeed } from "./random.ts";

/** What the page and the answer say where a single forecast was widened. */
export const WIDENED_TEXT =
  "There is one forecast only: its odds come from an assumed table of how forecasts err by lead time.";

const DAY_H = 24;
/** Kasten & Czeplak 1980, Solar Energy 24:177-189: G = G0 (1 - 0.75 N^3.4). */
const CLOUD_SHARE = 0.75;
const CLOUD_POWER = 3.4;
const SHOWER_LIGHT = 0.3;
const SHOWER_RH = 0.95;

function normalOf(random: () => number): number {
  return normalAtShare(Math.max(random(), 1e-12));
}

/** A unit-spread error that wanders and forgets itself over `memoryH`. */
function wander(random: () => number, memoryH: number): () => number {
  const keep = Math.exp(-1 / memoryH);
  const fresh = Math.sqrt(1 - keep * keep);
  let value = normalOf(random);
  return () => {
    const now = value;
    value = keep * value + fresh * normalOf(random);
    return now;
  };
}

/** Rain of a member, 24 h of lead at a time: it may fail, differ in amount, or fall where none was told. */
function widenedRain(
  weather: HourlyWeather,
  leadOf: (hour: number) => number,
  random: () => number,
): { readonly rainMm: Float64Array; readonly shower: Uint8Array } {
  const rainMm = new Float64Array(weather.count);
  const shower = new Uint8Array(weather.count);
  for (let from = 0; from < weather.count; from += DAY_H) {
    const to = Math.min(weather.count, from + DAY_H);
    const told = weather.rainMm.subarray(from, to).reduce((sum, mm) => sum + mm, 0);
    const error = errorAtLead(leadOf((from + to) / 2));
    // Always the same draws a day, so that a change of one day's rain leaves the next days' chance alone.
    const [happens, amount, at] = [random(), normalOf(random), random()];
    if (leadOf(to) <= 0) {
      rainMm.set(weather.rainMm.subarray(from, to), from);
    } else if (told >= ERROR_SHAPE.dayRainMm.value) {
      const sd = ERROR_SHAPE.rainAmountLnSd.value;
      const times = happens < error.rainFailsShare ? 0 : Math.exp(sd * amount - sd ** 2 / 2);
      for (let i = from; i < to; i++)
        rainMm[i] = (weather.rainMm[i] as number) * (leadOf(i + 1) <= 0 ? 1 : times);
    } else {
      rainMm.set(weather.rainMm.subarray(from, to), from);
      if (happens >= error.showerShare) continue;
      const hours = ERROR_SHAPE.showerHours.value;
      const mm = -ERROR_SHAPE.showerMm.value * Math.log(1 - happens / error.showerShare + 1e-12);
      const start = from + Math.floor(at * (to - from));
      for (let i = start; i < Math.min(weather.count, start + hours); i++) {
        if (leadOf(i + 1) <= 0) continue;
        rainMm[i] = (rainMm[i] as number) + mm / hours;
        shower[i] = 1;
      }
    }
  }
  return { rainMm, shower };
}

/**
 * One possible weather around a single forecast: temperature, humidity, radiation and rain by the table of error growth.
 * Wind and pressure stay. Radiation stays at or under the clear sky that the hour's cloud implies. Hours that were past
 * when the forecast was issued stay as they are.
 */
export function widenedMember(weather: HourlyWeather, issuedUtcMs: number, seed: number): HourlyWeather {
  const leadOf = (hour: number) => (weather.startUtcMs + hour * HOUR_MS - issuedUtcMs) / HOUR_MS;
  const memoryH = ERROR_SHAPE.memoryH.value;
  const stream = (k: number) => seededRandom(streamSeed(seed, k));
  const [tempZ, humidityZ, solarZ] = [0, 1, 2].map((k) => wander(stream(k), memoryH)) as [
    () => number,
    () => number,
    () => number,
  ];
  const { rainMm, shower } = widenedRain(weather, leadOf, stream(3));
  const airTempC = Float64Array.from(weather.airTempC);
  const vapourPressureKPa = Float64Array.from(weather.vapourPressureKPa);
  const solarWm2 = Float64Array.from(weather.solarWm2);
  const cloudFrac = Float64Array.from(weather.cloudFrac);
  for (let i = 0; i < weather.count; i++) {
    const [t, h, s] = [tempZ(), humidityZ(), solarZ()];
    if (leadOf(i + 1) <= 0) continue;
    const error = errorAtLead(leadOf(i));
    const toldC = weather.airTempC[i] as number;
    const toldRh = (weather.vapourPressureKPa[i] as number) / saturationKPa(toldC);
    const tempC = toldC + error.airTempSdK * t;
    const rh = Math.min(1, Math.max(0.05, toldRh + (error.humiditySdPct / 100) * h));
    airTempC[i] = tempC;
    vapourPressureKPa[i] = (shower[i] === 1 ? Math.max(rh, SHOWER_RH) : rh) * saturationKPa(tempC);
    const toldSun = weather.solarWm2[i] as number;
    if (toldSun <= 0) continue;
    const toldShare = 1 - CLOUD_SHARE * (weather.cloudFrac[i] as number) ** CLOUD_POWER;
    const share =
      toldShare *
      Math.exp(error.solarLnSd * s - error.solarLnSd ** 2 / 2) *
      (shower[i] === 1 ? SHOWER_LIGHT : 1);
    const skyShare = Math.min(1, share);
    solarWm2[i] = (toldSun / toldShare) * skyShare;
    cloudFrac[i] = Math.min(1, Math.max(0, (1 - skyShare) / CLOUD_SHARE) ** (1 / CLOUD_POWER));
  }
  return { ...weather, airTempC, vapourPressureKPa, solarWm2, cloudFrac, rainMm };
}
