/** The words that requests and answers use for routes, packages and stores. */

export const SWATH_ROUTES = ["dry-hay", "wrapped-bales", "wilted-chop"] as const;
export const STANDING_ROUTES = ["direct-chop", "green-chop", "grazing"] as const;
export const ROUTES = [...SWATH_ROUTES, ...STANDING_ROUTES] as const;
export type SwathRouteKey = (typeof SWATH_ROUTES)[number];
export type StandingRouteKey = (typeof STANDING_ROUTES)[number];
export type RouteKey = SwathRouteKey | StandingRouteKey;

export const PACKAGES = ["small-square", "round", "large-square", "stalk-bale"] as const;
export type PackageKey = (typeof PACKAGES)[number];

export const STORES = ["bunker", "pile", "bag", "stave", "oxygen-limiting"] as const;
export type StoreKey = (typeof STORES)[number];
