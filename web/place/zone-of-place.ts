import { useEffect } from "preact/hooks";
import { within } from "../../model/limits.ts";
import { isKnownTimeZone, SITE_LIMITS } from "../../model/weather/index.ts";
import type { Dispatch } from "../app/use-model.ts";
import { readDegrees } from "../state/numbers.ts";
import type { PlaceTexts } from "./place-texts.ts";

/** The IANA zone of a place, from a map kept in the program; null where it cannot be told. Coarse at borders. */
export async function zoneOfPlace(latitude: number, longitude: number): Promise<string | null> {
  // Only who has a place of their own needs the map: it stays out of the first look.
  const { default: lookup } = await import("tz-lookup");
  const zone = lookup(latitude, longitude);
  return isKnownTimeZone(zone) ? zone : null;
}

/** Puts the zone that belongs to the place into its field, as long as nobody has typed another. */
export function useZoneOfPlace({ latitude, longitude }: PlaceTexts, dispatch: Dispatch): void {
  useEffect(() => {
    const [north, east] = [readDegrees(latitude), readDegrees(longitude)];
    if (north === null || east === null) return;
    if (!within(north, SITE_LIMITS.latitude) || !within(east, SITE_LIMITS.longitude)) return;
    let gone = false;
    zoneOfPlace(north, east)
      .then((timeZone) => {
        if (!gone && timeZone !== null) dispatch({ kind: "zone-found", timeZone });
      })
      .catch(() => {
        // Without the map the zone is asked for in its field.
      });
    return () => {
      gone = true;
    };
  }, [latitude, longitude]);
}
