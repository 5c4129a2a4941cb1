import { coefficient } from "../coefficient.ts";
import { fastExp, fastLog } from "./fast-math.ts";

/**
 * Sorption: the moisture at which tissue rests in air of a given humidity, and its inverse, the water activity of
 * tissue at a given moisture. Oswin's form throughout, Me = A (h / (1 - h))^C, dry basis.
 *
 * Hay has two branches (hysteresis): tissue that loses water rests wetter than tissue that gains it.
 * Between the two it neither gains nor loses. Coarse stalks rest drier than hay in humid air, on one branch.
 */

const NRAES =
  "fitted to the hay equilibrium table of NRAES-5 (Pitt 1990), 21-35 °C, RH 0.3-0.9; worst cell 1.1 points wb. " +
  "Outside that air it is an extrapolation";
const NASH =
  "fitted to Nash (1978), as cited by MacDonald & Clark (1987, Adv. Agron. 41), and to extension points from memory, about 20-25 °C";
const STOVER =
  "the Oswin curve through the two ends that Karunanithy et al. (2013, J. Renew. Energy) give for corn stover: " +
  "8.0 % db at RH 0.12, 19.6 % db at RH 0.89";
const STOVER_C = Math.log(0.196 / 0.08) / Math.log(0.89 / 0.11 / (0.12 / 0.88));

/** The coefficients of the three Oswin curves. A and C of hay that dries are linear in temperature, °C. */
export const ISOTHERM = {
  hayDrying: {
    aAt0C: coefficient(0.2676, "kg/kg", "fitted", NRAES),
    aPerC: coefficient(-0.00496, "kg/kg/K", "fitted", NRAES),
    cAt0C: coefficient(0.3091, "-", "fitted", NRAES),
    cPerC: coefficient(0.01388, "1/K", "fitted", NRAES),
    minTempC: coefficient(21, "°C", "published", "coldest row of NRAES-5; colder air is taken as this"),
    maxTempC: coefficient(35, "°C", "published", "warmest row of NRAES-5; warmer air is taken as this"),
  },
  // It crosses the drying branch in warm or dry air, so it is bounded by it.
  hayWetting: {
    a: coefficient(0.1295, "kg/kg", "fitted", NASH, [0.5, 0.95]),
    c: coefficient(0.514, "-", "fitted", NASH, [0.5, 0.95]),
  },
  stalk: {
    a: coefficient(0.08 / (0.12 / 0.88) ** STOVER_C, "kg/kg", "fitted", STOVER, [0.12, 0.89]),
    c: coefficient(STOVER_C, "-", "fitted", STOVER, [0.12, 0.89]),
  },
} as const;

export const HAY_WETTING_BRANCH = { a: ISOTHERM.hayWetting.a.value, c: ISOTHERM.hayWetting.c.value } as const;
export const STALK_BRANCH = { a: ISOTHERM.stalk.a.value, c: ISOTHERM.stalk.c.value } as const;

/** Humidity, 0-1, outside which the drying branch is an extrapolation of its table. */
export const DRYING_BRANCH_RH = [0.3, 0.9] as const;

/** Above this humidity the isotherm says nothing: water is then on the film, not in the tissue. */
export const MAX_ISOTHERM_RH = 0.98;
/** Below this humidity, drier than any air, the moisture at rest is taken as there. */
export const MIN_ISOTHERM_RH = 0.001;

/** Oswin's A and C of the drying branch at a temperature, °C (held to 21-35). */
export function dryingBranchAt(tempC: number): { a: number; c: number } {
  const { aAt0C, aPerC, cAt0C, cPerC, minTempC, maxTempC } = ISOTHERM.hayDrying;
  const t = Math.min(maxTempC.value, Math.max(minTempC.value, tempC));
  return { a: aAt0C.value + aPerC.value * t, c: cAt0C.value + cPerC.value * t };
}

/** Oswin's curve: moisture (dry basis) at rest at a humidity 0-1 (held to 0.001-0.98). */
export function oswinDb(a: number, c: number, rhFrac: number): number {
  const h = Math.min(MAX_ISOTHERM_RH, Math.max(MIN_ISOTHERM_RH, rhFrac));
  // A power as exponential and logarithm: the second opinions ask for it every hour, and ** costs several times as much.
  return a * fastExp(c * fastLog(h / (1 - h)));
}

/** Oswin's curve turned round: water activity 0-1 of tissue at a moisture, dry basis. */
export function oswinActivity(a: number, c: number, moistureDb: number): number {
  const x = fastExp(fastLog(moistureDb / a) / c);
  return x / (1 + x);
}

/** Moisture (dry basis) at which drying hay comes to rest in air of this temperature (°C) and humidity (0-1). */
export function dryingEquilibriumDb(tempC: number, rhFrac: number): number {
  const { a, c } = dryingBranchAt(tempC);
  return oswinDb(a, c, rhFrac);
}

/** Moisture (dry basis) at which wetting hay comes to rest; never above the drying branch. */
export function wettingEquilibriumDb(tempC: number, rhFrac: number): number {
  const { a, c } = HAY_WETTING_BRANCH;
  return Math.min(oswinDb(a, c, rhFrac), dryingEquilibriumDb(tempC, rhFrac));
}

/** Moisture (dry basis) at which a coarse stalk comes to rest, losing or gaining. */
export function stalkEquilibriumDb(rhFrac: number): number {
  return oswinDb(STALK_BRANCH.a, STALK_BRANCH.c, rhFrac);
}
