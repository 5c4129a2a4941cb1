import { get, set } from "idb-keyval";
import { type ForecastPlace, isProvider } from "../weather/forecast.ts";

/** A place that this device remembers under the field's name. */
export interface SavedPlace {
  readonly name: string;
  readonly place: ForecastPlace;
}

const KEY = "places";
/** The oldest is let go past these. */
const MOST = 12;

function isPlace(value: unknown): value is ForecastPlace {
  if (typeof value !== "object" || value === null) return false;
  const { latitude, longitude, elevationM, timeZone, provider } = value as Record<string, unknown>;
  return (
    typeof latitude === "number" &&
    typeof longitude === "number" &&
    (elevationM === null || typeof elevationM === "number") &&
    (timeZone === null || typeof timeZone === "string") &&
    (provider === null || (typeof provider === "string" && isProvider(provider)))
  );
}

/** What the device holds, newest first. Nothing it holds is trusted. */
export function readPlaces(value: unknown): SavedPlace[] {
  if (!Array.isArray(value)) return [];
  return value.flatMap((one: unknown) => {
    if (typeof one !== "object" || one === null) return [];
    const { name, place } = one as Record<string, unknown>;
    return typeof name === "string" && isPlace(place) ? [{ name, place }] : [];
  });
}

/** The places with one more in front; one of the same spot is replaced. */
export function withPlace(places: readonly SavedPlace[], added: SavedPlace): SavedPlace[] {
  const others = places.filter(
    ({ place }) => place.latitude !== added.place.latitude || place.longitude !== added.place.longitude,
  );
  return [added, ...others].slice(0, MOST);
}

/** None where the device keeps nothing, or may not. */
export async function loadPlaces(): Promise<SavedPlace[]> {
  try {
    return readPlaces(await get(KEY));
  } catch {
    return [];
  }
}

export async function savePlace(added: SavedPlace): Promise<void> {
  try {
    await set(KEY, withPlace(await loadPlaces(), added));
  } catch {
    // A device that keeps nothing asks for the place again.
  }
}
