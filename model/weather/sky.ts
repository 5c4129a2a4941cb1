import { fillShortGaps } from "./gaps.ts";
import { LONGEST_FILLED_GAP_H } from "./limits.ts";
import { cloudOfTransmission, cloudTransmission } from "./radiation.ts";

/** Completing the sky: radiation from cloud, cloud from radiation, and the night between two days. */

/** Clear-sky radiation above which the measured share says something about the cloud, W/m²: sun above about 9°. */
const TELLING_CLEAR_SKY_WM2 = 120;

/** Hours that speak for the evening or the morning when the cloud of a night is guessed. */
const TWILIGHT_HOURS = 3;

/** What is taken when the sun never rises high enough and no cloud is given: half covered. Assumed. */
export const UNKNOWN_CLOUD_FRAC = 0.5;

/** Clear air lets this much of Haurwitz's radiation through, from haze to a high site; outside it, it is cloud. Assumed. */
const CLEAR_AIR_SHARE = { least: 0.95, most: 1.08, quantile: 0.95 } as const;

export interface SolarFill {
  readonly solarWm2: Float64Array;
  readonly fromCloud: Uint8Array;
  readonly interpolated: Uint8Array;
}

/**
 * Radiation of every hour that can be known: as given; 0 while the sun is down; from the cloud cover given for the hour;
 * over up to 3 h by the share of clear-sky radiation between the neighbours; or from a bridged cloud cover. The rest
 * stays NaN.
 *
 * @param bridgedCloud 1 where the cloud cover is itself interpolated
 */
export function completeSolar(
  givenWm2: Float64Array,
  cloudFrac: Float64Array,
  bridgedCloud: Uint8Array,
  clearSkyWm2: Float64Array,
): SolarFill {
  const count = givenWm2.length;
  const solarWm2 = new Float64Array(count);
  const fromCloud = new Uint8Array(count);
  const interpolated = new Uint8Array(count);
  const share = new Float64Array(count).fill(Number.NaN);
  let missing = 0;
  for (let i = 0; i < count; i++) {
    const given = givenWm2[i] as number;
    const clear = clearSkyWm2[i] as number;
    const cloud = cloudFrac[i] as number;
    if (!Number.isNaN(given)) {
      solarWm2[i] = Math.max(0, given);
      if (clear >= TELLING_CLEAR_SKY_WM2) share[i] = Math.max(0, given) / clear;
    } else if (clear > 0 && !Number.isNaN(cloud) && bridgedCloud[i] === 0) {
      solarWm2[i] = clear * cloudTransmission(cloud);
      fromCloud[i] = 1;
    } else if (clear > 0) {
      solarWm2[i] = Number.NaN;
      missing++;
    }
  }
  if (missing > 0) {
    bridgeByShare(solarWm2, share, clearSkyWm2, interpolated);
    for (let i = 0; i < count; i++) {
      if (!Number.isNaN(solarWm2[i] as number) || Number.isNaN(cloudFrac[i] as number)) continue;
      solarWm2[i] = (clearSkyWm2[i] as number) * cloudTransmission(cloudFrac[i] as number);
      fromCloud[i] = 1;
    }
  }
  return { solarWm2, fromCloud, interpolated };
}

/** Fills gaps of up to 3 h in daylight; next to dawn or dusk the one neighbour in the sun speaks alone. */
function bridgeByShare(
  solarWm2: Float64Array,
  share: Float64Array,
  clearSkyWm2: Float64Array,
  interpolated: Uint8Array,
): void {
  const count = solarWm2.length;
  let i = 0;
  while (i < count) {
    if (!Number.isNaN(solarWm2[i] as number)) {
      i++;
      continue;
    }
    let end = i;
    while (end < count && Number.isNaN(solarWm2[end] as number)) end++;
    const before = i > 0 ? (share[i - 1] as number) : Number.NaN;
    const after = end < count ? (share[end] as number) : Number.NaN;
    const from = Number.isNaN(before) ? after : before;
    const to = Number.isNaN(after) ? before : after;
    const run = end - i;
    if (i > 0 && end < count && run <= LONGEST_FILLED_GAP_H && !Number.isNaN(from)) {
      for (let k = 0; k < run; k++) {
        solarWm2[i + k] = (clearSkyWm2[i + k] as number) * (from + ((to - from) * (k + 1)) / (run + 1));
        interpolated[i + k] = 1;
      }
    }
    i = end;
  }
}

/** The series' own clear air: the brightest shares, held between haze and high mountain. */
function clearAirShare(solarWm2: Float64Array, clearSkyWm2: Float64Array): number {
  const shares: number[] = [];
  for (let i = 0; i < solarWm2.length; i++) {
    const clear = clearSkyWm2[i] as number;
    const solar = solarWm2[i] as number;
    if (clear >= 3 * TELLING_CLEAR_SKY_WM2 && !Number.isNaN(solar)) shares.push(solar / clear);
  }
  if (shares.length === 0) return 1;
  shares.sort((x, y) => x - y);
  const bright = shares[Math.floor(CLEAR_AIR_SHARE.quantile * (shares.length - 1))] as number;
  return Math.min(CLEAR_AIR_SHARE.most, Math.max(CLEAR_AIR_SHARE.least, bright));
}

/** Cloud seen through the radiation of up to `TWILIGHT_HOURS` telling hours, going from `from` by `step`. */
function cloudOfHours(
  solarWm2: Float64Array,
  clearSkyWm2: Float64Array,
  clearAir: number,
  from: number,
  step: 1 | -1,
): number {
  let solar = 0;
  let clear = 0;
  for (let k = 0, i = from; k < TWILIGHT_HOURS && i >= 0 && i < solarWm2.length; k++, i += step) {
    if ((clearSkyWm2[i] as number) < TELLING_CLEAR_SKY_WM2 || Number.isNaN(solarWm2[i] as number)) break;
    solar += solarWm2[i] as number;
    clear += clearSkyWm2[i] as number;
  }
  return cloudOfTransmission(solar / (clear * clearAir));
}

/**
 * Cloud of every hour: as given; else by day from the measured share of clear-sky radiation (Kasten & Czeplak 1980,
 * inverted, against the series' own clear air); at low sun and by night between what the last hours of the evening and
 * the first of the morning say. Polar night without any cloud given takes a half.
 *
 * The inversion is steep near a clear sky: 5 % of missing radiation reads as 0.45 of cover, so single hours of thin haze
 * read as half covered. It was not measured against observed cloud; made radiation gives its cloud back (tested).
 *
 * @returns how many hours were inferred, and whether none of the hours could tell
 */
export function completeCloud(
  cloudFrac: Float64Array,
  solarWm2: Float64Array,
  clearSkyWm2: Float64Array,
): { readonly inferred: number; readonly unknown: boolean } {
  const count = cloudFrac.length;
  let missing = 0;
  for (const value of cloudFrac) if (Number.isNaN(value)) missing++;
  if (missing === 0) return { inferred: 0, unknown: false };
  const clearAir = clearAirShare(solarWm2, clearSkyWm2);
  const telling = (i: number) =>
    (clearSkyWm2[i] as number) >= TELLING_CLEAR_SKY_WM2 && !Number.isNaN(solarWm2[i] as number);
  const given = Uint8Array.from(cloudFrac, (value) => (Number.isNaN(value) ? 0 : 1));
  for (let i = 0; i < count; i++) {
    if (given[i] === 0 && telling(i)) {
      cloudFrac[i] = cloudOfTransmission((solarWm2[i] as number) / ((clearSkyWm2[i] as number) * clearAir));
    }
  }
  let known = false;
  let i = 0;
  while (i < count) {
    if (!Number.isNaN(cloudFrac[i] as number)) {
      known = true;
      i++;
      continue;
    }
    let end = i;
    while (end < count && Number.isNaN(cloudFrac[end] as number)) end++;
    const speak = (at: number, step: 1 | -1) =>
      given[at] === 1 ? (cloudFrac[at] as number) : cloudOfHours(solarWm2, clearSkyWm2, clearAir, at, step);
    const before = i > 0 ? speak(i - 1, -1) : Number.NaN;
    const after = end < count ? speak(end, 1) : Number.NaN;
    const from = Number.isNaN(before) ? after : before;
    const to = Number.isNaN(after) ? before : after;
    for (let k = i; k < end; k++) {
      const weight = (k - i + 1) / (end - i + 1);
      cloudFrac[k] = Number.isNaN(from) ? UNKNOWN_CLOUD_FRAC : from + (to - from) * weight;
    }
    if (!Number.isNaN(from)) known = true;
    i = end;
  }
  return { inferred: missing, unknown: !known };
}

/** Cloud cover as given, 0-1, with gaps of up to 3 h bridged. */
export function givenCloud(cloudPct: Float64Array, interpolated: Uint8Array): Float64Array {
  const cloud = cloudPct.map((value) => value / 100);
  fillShortGaps(cloud, interpolated);
  return cloud;
}
