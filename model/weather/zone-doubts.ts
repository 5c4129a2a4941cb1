import { HOUR_MS, localOffsetMs } from "./clock.ts";
import type { Site } from "./series.ts";

/** A clock that does not belong to the place: working hours and days would be those of another country. */

/**
 * Widest distance between a zone's standard time and the sun's, h. Western China keeps a clock 3.1 h ahead of the sun,
 * the widest that people live by (assumed: half an hour more is allowed).
 */
export const FARTHEST_H = 3.5;

/** UTC+5.5 or UTC-8. */
function offsetWords(hours: number): string {
  const rounded = Math.round(hours * 100) / 100;
  return rounded === 0 ? "UTC" : `UTC${rounded > 0 ? "+" : "-"}${Math.abs(rounded)}`;
}

/** Offset outside summer time, h: the smaller of those of January and July, which is right in both hemispheres. */
function standardOffsetH(zone: string, utcMs: number): number {
  const year = new Date(utcMs).getUTCFullYear();
  const inMonth = (month: number) => localOffsetMs(zone, Date.UTC(year, month, 1)) / HOUR_MS;
  return Math.min(inMonth(0), inMonth(6));
}

/** Offset that the sun keeps at a longitude, h. */
function sunOffsetH(longitude: number): number {
  return longitude / 15;
}

/** Distance between a clock's offset and the sun's, h, 0 to 12. */
export function apartFromSunH(offsetH: number, longitude: number): number {
  const apartH = offsetH - sunOffsetH(longitude);
  // Either side of the date line the clocks differ by a day and the sun by nothing.
  return Math.abs(apartH - 24 * Math.round(apartH / 24));
}

/** Why the zone may not be the farm's, as a sentence; null where it may. The site has passed its checks. */
export function zoneDoubt({ timeZone, longitude }: Site, utcMs: number): string | null {
  const zoneH = standardOffsetH(timeZone, utcMs);
  const sunH = sunOffsetH(longitude);
  const apartH = apartFromSunH(zoneH, longitude);
  if (apartH <= FARTHEST_H) return null;
  return (
    `The time zone ${timeZone} (standard time ${offsetWords(zoneH)}) is far from the longitude ${longitude}, where the ` +
    `sun keeps ${offsetWords(sunH)}: ${apartH.toFixed(1)} h apart, at most ${FARTHEST_H} h is expected. ` +
    "Working hours and days follow the zone: check zone and longitude."
  );
}
