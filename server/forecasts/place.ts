import tzLookup from "tz-lookup";
import { isKnownTimeZone } from "../../model/weather/index.ts";
import type { ProviderName } from "./provider.ts";

/** What follows from a place alone: its clock, and which services are asked in which order. */

/**
 * The IANA zone of a place, from a map kept in the program. Coarse at borders, so that it can be corrected; a zone that
 * this runtime does not know yet becomes the nautical one.
 */
export function timeZoneOf(latitude: number, longitude: number): string {
  const zone = tzLookup(latitude, longitude);
  if (isKnownTimeZone(zone)) return zone;
  const hours = Math.round(longitude / 15);
  // In the names of these zones the sign is turned round: Etc/GMT+6 is six hours behind UTC.
  return hours === 0 ? "Etc/GMT" : `Etc/GMT${hours > 0 ? "-" : "+"}${Math.abs(hours)}`;
}

interface Box {
  readonly south: number;
  readonly north: number;
  readonly west: number;
  readonly east: number;
}

const inside = (latitude: number, longitude: number) => (box: Box) =>
  latitude >= box.south && latitude <= box.north && longitude >= box.west && longitude <= box.east;

/** Roughly where the US service forecasts; a place inside that it does not know costs one quick answer. */
const US: readonly Box[] = [
  { south: 24, north: 49.5, west: -125, east: -66.5 },
  { south: 51, north: 72, west: -180, east: -129 },
  { south: 18, north: 23, west: -161, east: -154 },
  { south: 17, north: 19, west: -68, east: -64 },
  { south: 13, north: 21, west: 144, east: 146.5 },
];

/** Central Europe, where points of the German service lie close together. */
const CENTRAL_EUROPE: readonly Box[] = [{ south: 45, north: 56, west: 3, east: 17 }];

/**
 * The order in which services are asked. First the one with radiation, past days and ensembles everywhere; then in the
 * United States their own service, in Central Europe the German one (which has radiation), elsewhere the Norwegian one.
 * A service that the user picked comes first, the others after it.
 */
export function providerOrder(
  latitude: number,
  longitude: number,
  picked: ProviderName | null,
): ProviderName[] {
  const here = inside(latitude, longitude);
  const order: ProviderName[] = US.some(here)
    ? ["open-meteo", "nws", "met-norway", "bright-sky"]
    : CENTRAL_EUROPE.some(here)
      ? ["open-meteo", "bright-sky", "met-norway"]
      : ["open-meteo", "met-norway", "bright-sky"];
  return picked === null ? order : [picked, ...order.filter((name) => name !== picked)];
}
