import { describe, expect, test, vi } from "vitest";
import { findPlace, PLACE_TROUBLES, placeOf, troubleOf, zoneDoubt } from "../../../web/place/my-place.ts";
import { splitPair } from "../../../web/place/split-pair.ts";
import { zoneOfPlace } from "../../../web/place/zone-of-place.ts";

const NOW = Date.parse("2026-07-01T12:00:00Z");
const here = { latitude: 44.31234, longitude: -98.1789, altitude: null, altitudeAccuracy: null };

test("a place is told to about 1 km, an altitude only where the device is sure of it", () => {
  expect(placeOf(here)).toEqual({ latitude: "44.31", longitude: "-98.18" });
  expect(placeOf({ ...here, altitude: 401.4, altitudeAccuracy: 8 }).elevationM).toBe("401");
  expect(placeOf({ ...here, altitude: 401.4, altitudeAccuracy: 90 }).elevationM).toBeUndefined();
});

describe("asking the browser", () => {
  const fails = (code: number) => ({
    getCurrentPosition: (_ok: PositionCallback, no?: PositionErrorCallback | null) =>
      no?.({ code } as GeolocationPositionError),
  });

  test.each([
    [1, "denied"],
    [2, "unavailable"],
    [3, "timeout"],
  ] as const)("its error %i is told as %s", async (code, trouble) => {
    expect(troubleOf(code)).toBe(trouble);
    expect(await findPlace(true, fails(code))).toBe(trouble);
    expect(PLACE_TROUBLES[trouble]).toMatch(/type the coordinates instead\.$/i);
  });

  test("a page without https, and a browser without places, are told so and not asked", async () => {
    const asked = vi.fn();
    expect(await findPlace(false, { getCurrentPosition: asked })).toBe("insecure");
    expect(asked).not.toHaveBeenCalled();
    expect(await findPlace(true, null)).toBe("no-location");
  });

  test("a place comes as it is", async () => {
    const ok = (give: PositionCallback) => give({ coords: here } as unknown as GeolocationPosition);
    expect(await findPlace(true, { getCurrentPosition: ok })).toEqual(here);
  });
});

describe("a zone that does not fit the sun", () => {
  // Offsets in July: Chicago -5, Tokyo +9, Madrid +2, Shanghai +8 (zone data of the runtime).
  test.each([
    ["America/Chicago", -98.2, null],
    ["Asia/Tokyo", -98.2, /^Asia\/Tokyo is about 8 h away/],
    ["Europe/Madrid", -8.5, null],
    ["Asia/Shanghai", 87.6, null],
    ["Pacific/Auckland", 171.7, null],
    ["Pacific/Kiritimati", -157.4, null],
    ["America/Chicago", 171.7, /^America\/Chicago is about 8 h away/],
    ["Nowhere/At_all", 10, null],
    ["America/Chicago", null, null],
    ["America/Chicago", 500, null],
  ])("%s at %s", (zone, longitude, said) => {
    const doubt = zoneDoubt(zone, longitude, NOW);
    if (said === null) expect(doubt).toBeNull();
    else expect(doubt).toMatch(said);
  });
});

test.each([
  ["44.3, -98.2", "44.3", "-98.2"],
  [" (44.3123,-98.2) ", "44.3123", "-98.2"],
  ["44.3 -98.2", "44.3", "-98.2"],
  ["44.3° N, 98.2° W", "44.3", "-98.2"],
  ["48,2; 16,4", "48,2", "16,4"],
])("%s is parted into two numbers", (text, latitude, longitude) => {
  expect(splitPair(text)).toEqual({ latitude, longitude });
});

test.each(["44.3", "44,3", "-98.2", "north of the creek", "44.3, ", "1, 2, 3"])("%j is no pair", (text) => {
  expect(splitPair(text)).toBeNull();
});

test("the zone of a place is its own, not the device's", async () => {
  expect(await zoneOfPlace(44.3, -98.2)).toBe("America/Chicago");
  expect(await zoneOfPlace(-43.9, 171.7)).toBe("Pacific/Auckland");
});
