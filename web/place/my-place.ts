import { HOUR_MS, localOffsetMs } from "../../model/weather/index.ts";
import { apartFromSunH, FARTHEST_H } from "../../model/weather/zone-doubts.ts";
import type { PlaceTexts } from "./place-texts.ts";

/** What the browser gives of a place. */
export interface Position {
  readonly latitude: number;
  readonly longitude: number;
  /** Metres above the ellipsoid, to within its accuracy; null on most devices. */
  readonly altitude: number | null;
  readonly altitudeAccuracy: number | null;
}

// Two decimals are 1 km: weather knows no more, and a link that is sent tells no more of where somebody lives.
const PLACE_DECIMALS = 2;
/** An altitude less sure than this is left to the reader of a map, m. */
const ALTITUDE_SURE_M = 50;

/** The fields of the place as they would be typed. */
export function placeOf(position: Position): Partial<PlaceTexts> {
  const { latitude, longitude, altitude, altitudeAccuracy } = position;
  const sure = altitude !== null && altitudeAccuracy !== null && altitudeAccuracy <= ALTITUDE_SURE_M;
  return {
    latitude: String(Number(latitude.toFixed(PLACE_DECIMALS))),
    longitude: String(Number(longitude.toFixed(PLACE_DECIMALS))),
    ...(sure ? { elevationM: String(Math.round(altitude)) } : {}),
  };
}

export type PlaceTrouble = "denied" | "unavailable" | "timeout" | "no-location" | "insecure";

const TYPE_IT = "Type the coordinates instead.";

/** Why the browser gave no place, and what to do. */
export const PLACE_TROUBLES: Readonly<Record<PlaceTrouble, string>> = {
  denied: `The browser was not allowed to tell the place. Allow it in the site's settings, or: ${TYPE_IT.toLowerCase()}`,
  unavailable: `The device could not find its place. ${TYPE_IT}`,
  timeout: `The device took too long to find its place. Try again under open sky. ${TYPE_IT}`,
  "no-location": `This browser cannot tell a place. ${TYPE_IT}`,
  insecure: `A browser tells its place only to pages with an https address, or on this machine. ${TYPE_IT}`,
};

/** By the codes of the browser's GeolocationPositionError. */
export function troubleOf(code: number): PlaceTrouble {
  return code === 1 ? "denied" : code === 3 ? "timeout" : "unavailable";
}

const TIMEOUT_MS = 15_000;
/** A place found this long ago is as good as a new one: fields do not move. */
const MAX_AGE_MS = 10 * 60_000;

/** Asks the browser where it is. Never throws. */
export function findPlace(
  secure: boolean = isSecureContext,
  geolocation: Pick<Geolocation, "getCurrentPosition"> | null = navigator.geolocation ?? null,
): Promise<Position | PlaceTrouble> {
  if (!secure) return Promise.resolve("insecure");
  if (!geolocation) return Promise.resolve("no-location");
  return new Promise((resolve) => {
    geolocation.getCurrentPosition(
      ({ coords: { latitude, longitude, altitude, altitudeAccuracy } }) =>
        resolve({ latitude, longitude, altitude, altitudeAccuracy }),
      ({ code }) => resolve(troubleOf(code)),
      { timeout: TIMEOUT_MS, maximumAge: MAX_AGE_MS, enableHighAccuracy: false },
    );
  });
}

/**
 * A doubt about the zone where it does not fit the sun at that longitude; null where it may be right or cannot be told.
 *
 * @param nowMs any moment, for the zone's offset
 */
export function zoneDoubt(timeZone: string, longitude: number | null, nowMs: number): string | null {
  if (longitude === null || !(Math.abs(longitude) <= 180)) return null;
  let offsetH: number;
  try {
    offsetH = localOffsetMs(timeZone, nowMs) / HOUR_MS;
  } catch {
    return null;
  }
  const apart = apartFromSunH(offsetH, longitude);
  if (apart < FARTHEST_H) return null;
  return `${timeZone} is about ${Math.round(apart)} h away from the sun at this longitude. If that is not the farm's clock, correct it.`;
}
