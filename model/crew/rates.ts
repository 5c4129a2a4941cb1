import { BALERS, MOWER, PASS_MACHINES, ROUTE_MACHINES, typicalRateHaPerH } from "../harvest/machines.ts";
import { defaultPackage } from "../harvest/routes.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import type { CrewOp } from "./keys.ts";
import type { CrewFieldRequest, CrewMachineRequest } from "./request.ts";

/** Rate of a typical machine for this work on this field, ha/h. */
export function usualRate(op: CrewOp, field: CrewFieldRequest, topWb: number): number {
  const { dryMatterTHa, crop } = field.swath;
  const wetTHa = dryMatterTHa / (1 - topWb);
  switch (op) {
    case "mow":
      return typicalRateHaPerH(MOWER, 1);
    case "ted":
      return typicalRateHaPerH(PASS_MACHINES.ted, 1);
    case "rake":
      return typicalRateHaPerH(PASS_MACHINES.rake, 1);
    case "bale": {
      const baler =
        field.route === "wrapped-bales"
          ? ROUTE_MACHINES["wrapped-bales"]
          : BALERS[field.package ?? defaultPackage(crop)];
      return typicalRateHaPerH(baler ?? BALERS.round, wetTHa);
    }
    case "chop":
      return typicalRateHaPerH(ROUTE_MACHINES["wilted-chop"] ?? MOWER, wetTHa);
    case "wrap":
      return CREW_DEFAULTS.wrapHaPerH.value;
    case "haul":
      return CREW_DEFAULTS.haulHaPerH.value;
  }
}

/** A cart without a rate carries what is cut: nothing is known of it. */
export function cartHaPerH({ haPerH }: CrewMachineRequest): number {
  return haPerH ?? Number.POSITIVE_INFINITY;
}

/** What some carts carry away together, ha/h; infinite where one of them has no rate. */
export function carriedHaPerH(carts: readonly CrewMachineRequest[]): number {
  return carts.reduce((sum, cart) => sum + cartHaPerH(cart), 0);
}
