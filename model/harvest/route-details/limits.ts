import type { Limit } from "../../limits.ts";

/** What the functions of the route details may be asked; one by one, so that a page takes only those it asks by. */

/** From the baler to the film. */
export const WRAP_DELAY_H: Limit = { min: 0, max: 10_000, unit: "h" };
export const DELIVERED_T_PER_H: Limit = { min: 0, max: 1000, unit: "t/h" };
/** Inside a stack of hay. */
export const PROBE_C: Limit = { min: -60, max: 400, unit: "°C" };
export const STUBBLE_FROM_CM: Limit = { min: 0, max: 100, unit: "cm" };
export const STUBBLE_TO_CM: Limit = { min: 0, max: 150, unit: "cm" };
export const GRAZED_T_HA: Limit = { min: 0.01, max: 30, unit: "t/ha" };
export const GRAZED_NEED_KG_DM: Limit = { min: 0.01, max: 1_000_000, unit: "kg of dry matter a day" };
