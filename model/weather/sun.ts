import { getPosition, getTimes } from "suncalc";
import { HOUR_MS } from "./clock.ts";

/** Where the sun is (suncalc, within 0.02° of the NREL algorithm's example) and FAO-56's simpler daily geometry. */

const RAD = Math.PI / 180;

/** Apparent (refracted) elevation of the sun's centre above the horizon, degrees; below it about the true one. */
export function sunElevationDeg(utcMs: number, latitude: number, longitude: number): number {
  return getPosition(new Date(utcMs), latitude, longitude).altitude;
}

/** Direction of the sun, degrees clockwise from north. */
export function sunAzimuthDeg(utcMs: number, latitude: number, longitude: number): number {
  return getPosition(new Date(utcMs), latitude, longitude).azimuth;
}

export type SunDay =
  | {
      readonly kind: "rises";
      readonly riseUtcMs: number;
      readonly setUtcMs: number;
      readonly noonUtcMs: number;
    }
  | { readonly kind: "polar-day"; readonly noonUtcMs: number }
  | { readonly kind: "polar-night"; readonly noonUtcMs: number };

/** Sunrise, sunset and noon of the solar day that a moment belongs to; within 1.5 minutes of published tables (tested). */
export function sunDay(utcMs: number, latitude: number, longitude: number): SunDay {
  const times = getTimes(new Date(utcMs), latitude, longitude);
  const noonUtcMs = times.solarNoon.getTime();
  if (times.sunrise && times.sunset) {
    return { kind: "rises", riseUtcMs: times.sunrise.getTime(), setUtcMs: times.sunset.getTime(), noonUtcMs };
  }
  return { kind: times.alwaysUp === true ? "polar-day" : "polar-night", noonUtcMs };
}

function sineOfElevation(utcMs: number, latitude: number, longitude: number): number {
  return Math.sin(getPosition(new Date(utcMs), latitude, longitude).altitude * RAD);
}

/** Moments inside an hour at which the sun is looked at: the middles of equal parts. */
export const SUB_STEPS_PER_HOUR = 6;

/**
 * Sine of the sun's apparent elevation through each hour: `SUB_STEPS_PER_HOUR` values an hour, at the middles of
 * equal parts, and one flag an hour that says whether the sun was up in any part of it.
 *
 * The sine of the true elevation runs as a + b cos + c sin of the turning earth, so three looks an hour (two of them
 * shared) fix the curve; refraction bends it by less than 0.1° in between, less than 0.05° above 5° (tested).
 */
export function sunThroughHours(
  startUtcMs: number,
  count: number,
  latitude: number,
  longitude: number,
): { readonly sines: Float64Array; readonly daylight: Uint8Array } {
  const parts = SUB_STEPS_PER_HOUR;
  const sines = new Float64Array(count * parts);
  const daylight = new Uint8Array(count);
  const turnPerHour = 15 * RAD;
  const half = turnPerHour / 2;
  const cosHalf = Math.cos(half);
  const sinHalf = Math.sin(half);
  const cosPart: number[] = [];
  const sinPart: number[] = [];
  for (let k = 0; k < parts; k++) {
    const angle = turnPerHour * ((k + 0.5) / parts - 0.5);
    cosPart.push(Math.cos(angle));
    sinPart.push(Math.sin(angle));
  }
  let atStart = count > 0 ? sineOfElevation(startUtcMs, latitude, longitude) : 0;
  for (let i = 0; i < count; i++) {
    const from = startUtcMs + i * HOUR_MS;
    const atEnd = sineOfElevation(from + HOUR_MS, latitude, longitude);
    // Within an hour the curve bulges by less than 0.009: with both ends this low the sun stays down.
    if (atStart < -0.02 && atEnd < -0.02) {
      sines.fill(Math.max(atStart, atEnd), i * parts, (i + 1) * parts);
      atStart = atEnd;
      continue;
    }
    const atMiddle = sineOfElevation(from + HOUR_MS / 2, latitude, longitude);
    const b = (atMiddle - 0.5 * (atStart + atEnd)) / (1 - cosHalf);
    const c = (atEnd - atStart) / (2 * sinHalf);
    const a = atMiddle - b;
    let up = atStart > 0 || atEnd > 0;
    for (let k = 0; k < parts; k++) {
      const sine = a + b * (cosPart[k] as number) + c * (sinPart[k] as number);
      sines[i * parts + k] = sine;
      if (sine > 0) up = true;
    }
    daylight[i] = up ? 1 : 0;
    atStart = atEnd;
  }
  return { sines, daylight };
}

/** Solar constant, MJ m⁻² min⁻¹. Allen et al. (1998) FAO-56 eq. 21; ASCE-EWRI (2005) writes 4.92 an hour. */
export const SOLAR_CONSTANT_MJ_M2_MIN = 0.082;

/** Inverse relative distance of earth and sun, -. FAO-56 eq. 23. */
export function inverseRelativeDistance(dayOfYear: number): number {
  return 1 + 0.033 * Math.cos(((2 * Math.PI) / 365) * dayOfYear);
}

/** Declination of the sun, rad. FAO-56 eq. 24. */
export function declinationRad(dayOfYear: number): number {
  return 0.409 * Math.sin(((2 * Math.PI) / 365) * dayOfYear - 1.39);
}

/** Seasonal correction of solar time, h. FAO-56 eqs 32-33. */
export function seasonalCorrectionH(dayOfYear: number): number {
  const b = (2 * Math.PI * (dayOfYear - 81)) / 364;
  return 0.1645 * Math.sin(2 * b) - 0.1255 * Math.cos(b) - 0.025 * Math.sin(b);
}

/** Hour angle of sunset, rad: 0 in polar night, π in polar day. FAO-56 eq. 25. */
export function sunsetHourAngleRad(latitude: number, dayOfYear: number): number {
  const x = -Math.tan(latitude * RAD) * Math.tan(declinationRad(dayOfYear));
  return Math.acos(Math.max(-1, Math.min(1, x)));
}

/** Longest possible sunshine, h. FAO-56 eq. 34. */
export function daylightHours(latitude: number, dayOfYear: number): number {
  return (24 / Math.PI) * sunsetHourAngleRad(latitude, dayOfYear);
}

/** Radiation above the atmosphere on a horizontal plane over a day, MJ/m². FAO-56 eq. 21. */
export function extraterrestrialDailyMJM2(latitude: number, dayOfYear: number): number {
  const phi = latitude * RAD;
  const delta = declinationRad(dayOfYear);
  const ws = sunsetHourAngleRad(latitude, dayOfYear);
  const geometry = ws * Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * Math.sin(ws);
  return ((24 * 60) / Math.PI) * SOLAR_CONSTANT_MJ_M2_MIN * inverseRelativeDistance(dayOfYear) * geometry;
}

/** Solar hour angle of a moment, rad within ±π, 0 at solar noon. FAO-56 eq. 31, with the time in UTC. */
export function solarHourAngleRad(longitude: number, dayOfYear: number, utcHour: number): number {
  const angle = (Math.PI / 12) * (utcHour + longitude / 15 + seasonalCorrectionH(dayOfYear) - 12);
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

/**
 * Radiation above the atmosphere on a horizontal plane over one hour, MJ/m². FAO-56 eqs 28-33 as ASCE-EWRI (2005)
 * eqs 48-56 use them: the hour is cut at sunrise and sunset.
 *
 * @param utcMiddleHour the middle of the hour in UTC, h
 */
export function extraterrestrialHourlyMJM2(
  latitude: number,
  longitude: number,
  dayOfYear: number,
  utcMiddleHour: number,
): number {
  const phi = latitude * RAD;
  const delta = declinationRad(dayOfYear);
  const ws = sunsetHourAngleRad(latitude, dayOfYear);
  const middle = solarHourAngleRad(longitude, dayOfYear, utcMiddleHour);
  const clip = (angle: number) => Math.max(-ws, Math.min(ws, angle));
  const from = clip(middle - Math.PI / 24);
  const to = clip(middle + Math.PI / 24);
  if (to <= from) return 0;
  const geometry =
    (to - from) * Math.sin(phi) * Math.sin(delta) +
    Math.cos(phi) * Math.cos(delta) * (Math.sin(to) - Math.sin(from));
  const perRadian = ((12 * 60) / Math.PI) * SOLAR_CONSTANT_MJ_M2_MIN;
  return Math.max(0, perRadian * inverseRelativeDistance(dayOfYear) * geometry);
}

/** Day of the year of a UTC moment seen with a fixed offset, 1-366. */
export function dayOfYear(utcMs: number, offsetMs = 0): number {
  const local = new Date(utcMs + offsetMs);
  return 1 + Math.floor((local.getTime() - Date.UTC(local.getUTCFullYear(), 0, 1)) / 86_400_000);
}
