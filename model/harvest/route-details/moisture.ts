import type { CropKey } from "../../drying/keys.ts";
import { type Band, defaultBand } from "../bands.ts";
import type { PackageKey, RouteKey, StoreKey } from "../keys.ts";
import { PACKAGES, STORES } from "../keys.ts";
import { ROUTE_CATALOGUE } from "../routes.ts";

export interface MoistureRow {
  readonly route: RouteKey;
  readonly package: PackageKey | null;
  readonly store: StoreKey | null;
  readonly band: Band;
}

/** The band of a route by each package or store it may go into, in the order of the keys; empty where the crop is fresh. */
export function moistureRows(route: RouteKey, crop: CropKey): MoistureRow[] {
  const { packages, stores } = ROUTE_CATALOGUE[route];
  const row = (pack: PackageKey | null, store: StoreKey | null): MoistureRow[] => {
    const band = defaultBand(route, crop, pack ?? "round", store ?? "bunker");
    return band === null ? [] : [{ route, package: pack, store, band }];
  };
  return [
    ...PACKAGES.filter((pack) => packages.includes(pack)).flatMap((pack) => row(pack, null)),
    ...STORES.filter((store) => stores.includes(store)).flatMap((store) => row(null, store)),
  ];
}
