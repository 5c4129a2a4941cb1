import { type Coefficient, coefficient } from "../coefficient.ts";
import { areaCapacityHaPerH, hoursForArea } from "../harvest/capacity.ts";
import { BALERS, MOWER, ROUTE_MACHINES, typicalRateHaPerH } from "../harvest/machines.ts";
import { defaultPackage } from "../harvest/routes.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import type { CrewOp } from "./keys.ts";
import type { CrewFieldRequest, CrewMachineRequest } from "./request.ts";

const D497 = "typical values in the manner of ASAE D497, from memory";

function usual(value: number, unit: string, lo: number, hi: number): Coefficient {
  return coefficient(value, unit, "from-memory", D497, [lo, hi]);
}

/** Tedder and rake: only speed and width limit them. */
export const LIGHT_MACHINES = {
  tedder: {
    speedKmH: usual(10, "km/h", 8, 14),
    widthM: usual(7.5, "m", 5, 13),
    efficiency: usual(0.8, "-", 0.7, 0.9),
  },
  rake: {
    speedKmH: usual(10, "km/h", 6.5, 13),
    widthM: usual(7, "m", 3, 12),
    efficiency: usual(0.8, "-", 0.7, 0.9),
  },
} as const;

function lightRate({
  speedKmH,
  widthM,
  efficiency,
}: (typeof LIGHT_MACHINES)[keyof typeof LIGHT_MACHINES]): number {
  return areaCapacityHaPerH(speedKmH.value, widthM.value, efficiency.value);
}

/** Rate of a typical machine for this work on this field, ha/h. */
export function usualRate(op: CrewOp, field: CrewFieldRequest, topWb: number): number {
  const { dryMatterTHa, crop } = field.swath;
  const wetTHa = dryMatterTHa / (1 - topWb);
  switch (op) {
    case "mow":
      return typicalRateHaPerH(MOWER, 1);
    case "ted":
      return lightRate(LIGHT_MACHINES.tedder);
    case "rake":
      return lightRate(LIGHT_MACHINES.rake);
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

/** Whole slots that a machine needs on a field, travel apart. */
export function slotsFor(
  op: CrewOp,
  field: CrewFieldRequest,
  machine: CrewMachineRequest,
  topWb: number,
  slotMin: number,
): number {
  const haPerH = field.haPerH?.[op] ?? machine.haPerH ?? usualRate(op, field, topWb);
  return Math.max(1, Math.ceil((hoursForArea(field.areaHa, haPerH) * 60) / slotMin - 1e-9));
}
