import type { Site } from "../weather/series.ts";
import { CREW_DEFAULTS } from "./defaults.ts";

/** Minutes between two sites; symmetric, 0 within a site, null where the matrix has no entry. */
export function travelMinutes(
  travelMin: Readonly<Record<string, number>>,
  fromSiteId: string,
  toSiteId: string,
): number | null {
  if (fromSiteId === toSiteId) return 0;
  return travelMin[`${fromSiteId}|${toSiteId}`] ?? travelMin[`${toSiteId}|${fromSiteId}`] ?? null;
}

const EARTH_KM = 6371;
const RAD = Math.PI / 180;

/** Great-circle distance, km (haversine, sphere of 6371 km). */
export function distanceKm(
  a: Pick<Site, "latitude" | "longitude">,
  b: Pick<Site, "latitude" | "longitude">,
): number {
  const dLat = (b.latitude - a.latitude) * RAD;
  const dLon = (b.longitude - a.longitude) * RAD;
  const h =
    Math.sin(dLat / 2) ** 2 +
    Math.cos(a.latitude * RAD) * Math.cos(b.latitude * RAD) * Math.sin(dLon / 2) ** 2;
  return 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** Every pair of sites, from the matrix where it has one, else from the coordinates over an assumed road. Whole minutes. */
export function fullTravel(
  sites: Readonly<Record<string, Pick<Site, "latitude" | "longitude">>>,
  given: Readonly<Record<string, number>>,
  roadKmH: number = CREW_DEFAULTS.roadKmH.value,
): { readonly travelMin: Readonly<Record<string, number>>; readonly reckoned: number } {
  const travelMin: Record<string, number> = {};
  let reckoned = 0;
  const ids = Object.keys(sites).sort();
  ids.forEach((a, i) => {
    for (const b of ids.slice(i + 1)) {
      const known = travelMinutes(given, a, b);
      const [from, to] = [sites[a], sites[b]];
      if (known !== null) travelMin[`${a}|${b}`] = known;
      else if (from !== undefined && to !== undefined) {
        reckoned++;
        const km = distanceKm(from, to) * CREW_DEFAULTS.detour.value;
        travelMin[`${a}|${b}`] = Math.ceil((km / roadKmH) * 60);
      }
    }
  });
  return { travelMin, reckoned };
}
