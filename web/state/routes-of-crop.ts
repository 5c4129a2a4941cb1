import type { CropKey } from "../../model/drying/keys.ts";
import { ROUTES, type RouteKey, usualRoutes } from "../../model/harvest/index.ts";
import type { Inputs, RouteChoice } from "./inputs.ts";

/** Whether the ticked routes are those by which a crop is commonly brought in. */
export function hasUsualRoutes(routes: Inputs["routes"], crop: CropKey): boolean {
  const usual = usualRoutes(crop);
  return ROUTES.every((route) => routes[route].on === usual.includes(route));
}

/** The same packages and stores, with the usual routes of a crop ticked. */
export function withUsualRoutes(routes: Inputs["routes"], crop: CropKey): Inputs["routes"] {
  const usual = usualRoutes(crop);
  const ticked: Record<RouteKey, RouteChoice> = { ...routes };
  for (const route of ROUTES) ticked[route] = { ...routes[route], on: usual.includes(route) };
  return ticked;
}

/** Whether a crop is commonly chopped standing. */
export function choppedStanding(crop: CropKey): boolean {
  return usualRoutes(crop).includes("direct-chop");
}
