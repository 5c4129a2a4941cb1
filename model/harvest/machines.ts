import type { Coefficient } from "../coefficient.ts";
import type { OperationKind } from "../drying/keys.ts";
import { areaCapacityHaPerH, throughputSpeedKmH } from "./capacity.ts";
import type { PackageKey, RouteKey } from "./keys.ts";

/** A machine as it is usually met: what its default rate is computed from. */
export interface TypicalMachine {
  readonly label: string;
  readonly speedKmH: Coefficient;
  readonly widthM: Coefficient;
  readonly efficiency: Coefficient;
  /** What it takes in while it runs, t of wet crop an hour; null where speed alone limits it. */
  readonly intakeTPerH: Coefficient | null;
}

const D497 = "typical values in the manner of ASAE D497, from memory";

function usual(value: number, unit: string, lo: number, hi: number): Coefficient {
  return { value, unit, origin: "from-memory", source: D497, validRange: [lo, hi] };
}

type Span = readonly [usual: number, lo: number, hi: number];

function machine(
  label: string,
  speed: Span,
  width: Span,
  efficiency: Span,
  intake: Span | null,
): TypicalMachine {
  return {
    label,
    speedKmH: usual(speed[0], "km/h", speed[1], speed[2]),
    widthM: usual(width[0], "m", width[1], width[2]),
    efficiency: usual(efficiency[0], "-", efficiency[1], efficiency[2]),
    intakeTPerH: intake && usual(intake[0], "t wet/h", intake[1], intake[2]),
  };
}

export const MOWER = machine("Disc mower-conditioner", [11, 8, 19], [4, 2.4, 9.5], [0.8, 0.75, 0.9], null);

/** Round baler in wet crop; the film wrapper follows behind it and is not the bottleneck here. */
const WET_BALER = machine(
  "Round baler in wilted crop",
  [8, 5, 13],
  [6, 3, 12],
  [0.65, 0.55, 0.75],
  [25, 12, 40],
);

export const BALERS: Readonly<Record<PackageKey, TypicalMachine>> = {
  "small-square": machine("Small square baler", [6.5, 4, 10], [4.5, 3, 6], [0.75, 0.6, 0.85], [9, 5, 12]),
  round: machine("Round baler", [8, 5, 13], [6, 3, 12], [0.65, 0.55, 0.75], [20, 12, 30]),
  "large-square": machine("Large square baler", [8, 6.5, 13], [8, 6, 12], [0.8, 0.7, 0.9], [30, 15, 40]),
  "stalk-bale": machine("Round baler in stalks", [6.5, 4, 10], [6, 3, 12], [0.65, 0.5, 0.75], [15, 8, 25]),
};

/** Tedder and rake; an inverter works as a rake does. */
export const PASS_MACHINES: Readonly<Record<OperationKind, TypicalMachine>> = {
  ted: machine("Tedder", [10, 8, 14], [7.5, 5, 13], [0.8, 0.7, 0.9], null),
  rake: machine("Rake", [10, 6.5, 13], [7, 3, 12], [0.8, 0.7, 0.9], null),
  invert: machine("Windrow inverter", [10, 6.5, 13], [7, 3, 12], [0.8, 0.7, 0.9], null),
};

/** The machine whose rate a route's default comes from; null for grazing, which needs none. */
export const ROUTE_MACHINES: Readonly<Record<Exclude<RouteKey, "dry-hay">, TypicalMachine | null>> = {
  "wrapped-bales": WET_BALER,
  "wilted-chop": machine(
    "Self-propelled forage harvester",
    [5.5, 2.5, 10],
    [9, 6, 14],
    [0.7, 0.6, 0.85],
    [120, 80, 250],
  ),
  "direct-chop": machine(
    "Forage harvester, six rows",
    [5.5, 2.5, 10],
    [4.5, 3, 6],
    [0.7, 0.6, 0.85],
    [80, 40, 200],
  ),
  "green-chop": machine(
    "Flail or disc harvester and wagon",
    [5, 2.5, 8],
    [2, 1.5, 3],
    [0.7, 0.6, 0.85],
    [25, 10, 40],
  ),
  grazing: null,
};

/**
 * Rate of a typical machine in this crop.
 *
 * @param wetYieldTHa crop as it enters the machine, t/ha
 * @returns ha/h
 */
export function typicalRateHaPerH(typical: TypicalMachine, wetYieldTHa: number): number {
  const { speedKmH, widthM, efficiency, intakeTPerH } = typical;
  const boundKmH = intakeTPerH
    ? Math.min(speedKmH.value, throughputSpeedKmH(intakeTPerH.value, widthM.value, wetYieldTHa))
    : speedKmH.value;
  return areaCapacityHaPerH(boundKmH, widthM.value, efficiency.value);
}
