import { hoursForArea } from "../harvest/capacity.ts";
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

/**
 * Chopped crop leaves the field as it is cut: a chopper works no faster than all carts together carry, where each has its
 * rate, ha/h. Infinite where there are none or one has no rate: whose carts they are is then not known.
 */
export function cartsHaPerH(machines: readonly CrewMachineRequest[]): number {
  const carts = machines.filter(({ kind }) => kind === "cart");
  if (carts.length === 0) return Number.POSITIVE_INFINITY;
  return carts.reduce((sum, { haPerH }) => sum + (haPerH ?? Number.POSITIVE_INFINITY), 0);
}

/** Whole slots that a machine needs on a field, travel apart; a chopper with all carts of the crew behind it. */
export function slotsFor(
  op: CrewOp,
  field: CrewFieldRequest,
  machine: CrewMachineRequest,
  topWb: number,
  slotMin: number,
  all: readonly CrewMachineRequest[],
): number {
  const own = field.haPerH?.[op] ?? machine.haPerH ?? usualRate(op, field, topWb);
  const haPerH = op === "chop" ? Math.min(own, cartsHaPerH(all)) : own;
  return Math.max(1, Math.ceil((hoursForArea(field.areaHa, haPerH) * 60) / slotMin - 1e-9));
}
