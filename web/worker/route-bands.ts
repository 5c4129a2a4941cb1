import type { RouteKey, WindowsRequest } from "../../model/harvest/index.ts";
import { defaultBand, defaultPackage, HARVEST_DEFAULTS } from "../../model/harvest/index.ts";

/** A route of the question with the moisture band that computes, wet basis. */
export interface RouteBand {
  readonly route: RouteKey;
  readonly bandWb: readonly [number, number];
}

/** The bands of the routes asked for; green chop and grazing take the crop fresh and have none. */
export function routeBands({ routes, swath }: Omit<WindowsRequest, "weather">): RouteBand[] {
  return (routes ?? []).flatMap(({ route, package: pack, store, bandWb }) => {
    const usual = defaultBand(
      route,
      swath.crop,
      pack ?? defaultPackage(swath.crop),
      store ?? HARVEST_DEFAULTS.store.value,
    );
    const band = bandWb ?? usual?.bandWb;
    return band ? [{ route, bandWb: band }] : [];
  });
}
