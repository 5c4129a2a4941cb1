import type { Limit } from "../../limits.ts";

/** What the functions of the route details may be asked. */
export const ROUTE_DETAIL_LIMITS = {
  /** From the baler to the film. */
  wrapDelayH: { min: 0, max: 10_000, unit: "h" },
  deliveredTPerH: { min: 0, max: 1000, unit: "t/h" },
  /** Inside a stack of hay. */
  probeC: { min: -60, max: 400, unit: "°C" },
  baleMoistureWb: { min: 0, max: 1, unit: "(wet-basis fraction; 18 % is 0.18)" },
  stubbleFromCm: { min: 0, max: 100, unit: "cm" },
  stubbleToCm: { min: 0, max: 150, unit: "cm" },
  grazedTHa: { min: 0.01, max: 30, unit: "t/ha" },
  grazedNeedKgDm: { min: 0.01, max: 1_000_000, unit: "kg of dry matter a day" },
} as const satisfies Record<string, Limit>;
