import { requireRange } from "../limits.ts";

/**
 * What a field machine gets through, from its speed, its width and the share of time it truly works.
 * Formulas of the agricultural machinery management standards (ASAE EP496 and D497), from memory.
 */

/**
 * Field capacity by area: `Ca = v w e / 10`.
 *
 * @param speedKmH working speed, km/h
 * @param widthM working width, m; for a baler or chopper the cut width gathered into its windrow, not the pick-up
 * @param efficiency field efficiency, 0-1
 * @returns ha/h
 * @example areaCapacityHaPerH(10, 3, 0.8) // 2.4
 */
export function areaCapacityHaPerH(speedKmH: number, widthM: number, efficiency: number): number {
  requireRange("areaCapacityHaPerH", "speedKmH", speedKmH, 0, 60);
  requireRange("areaCapacityHaPerH", "widthM", widthM, 0, 60);
  requireRange("areaCapacityHaPerH", "efficiency", efficiency, 0, 1);
  return (speedKmH * widthM * efficiency) / 10;
}

/** Square feet of an acre over feet of a mile: `EFC = v w e / 8.25` follows from it exactly. */
const FT2_PER_ACRE = 43_560;
const FT_PER_MILE = 5_280;

/** Field capacity in US customary units: mph, ft -> acres/h. */
export function areaCapacityAcPerH(speedMph: number, widthFt: number, efficiency: number): number {
  requireRange("areaCapacityAcPerH", "speedMph", speedMph, 0, 40);
  requireRange("areaCapacityAcPerH", "widthFt", widthFt, 0, 200);
  requireRange("areaCapacityAcPerH", "efficiency", efficiency, 0, 1);
  return (speedMph * widthFt * efficiency) / (FT2_PER_ACRE / FT_PER_MILE);
}

/**
 * Field capacity by mass: `Cm = v w Y e / 10`.
 *
 * @param yieldTHa crop on the ground, t/ha; the answer is on the same basis (dry matter or wet)
 * @returns t/h
 */
export function massCapacityTPerH(
  speedKmH: number,
  widthM: number,
  yieldTHa: number,
  efficiency: number,
): number {
  return areaCapacityHaPerH(speedKmH, widthM, efficiency) * yieldTHa;
}

/**
 * Speed at which the machine's throughput binds: `v = 10 T / (w Y)`.
 *
 * @param throughputTPerH what the machine takes while it runs, t/h, on the basis of the yield
 * @returns km/h
 * @example throughputSpeedKmH(12, 6, 4) // 5.0
 */
export function throughputSpeedKmH(throughputTPerH: number, widthM: number, yieldTHa: number): number {
  requireRange("throughputSpeedKmH", "throughputTPerH", throughputTPerH, 0, 1000);
  requireRange("throughputSpeedKmH", "widthM", widthM, 0.1, 60);
  requireRange("throughputSpeedKmH", "yieldTHa", yieldTHa, 0.01, 400);
  return (10 * throughputTPerH) / (widthM * yieldTHa);
}

/** One round baler's cycle: it fills the chamber, then stops to wrap and eject. */
export interface BaleCycle {
  /** Time to fill the chamber, min. */
  readonly fillMin: number;
  readonly throughputTPerH: number;
  /** Share of the time the baler takes in crop, 0-1. */
  readonly efficiency: number;
}

/**
 * Throughput of a round baler that stops for each bale.
 *
 * @param baleT mass of a bale, t
 * @param intakeTPerH what it takes in while it runs, t/h
 * @param stopMin stop to wrap and eject, min
 */
export function roundBaleCycle(baleT: number, intakeTPerH: number, stopMin: number): BaleCycle {
  requireRange("roundBaleCycle", "baleT", baleT, 0.01, 3);
  requireRange("roundBaleCycle", "intakeTPerH", intakeTPerH, 0.1, 200);
  requireRange("roundBaleCycle", "stopMin", stopMin, 0, 30);
  const fillMin = (baleT / intakeTPerH) * 60;
  return {
    fillMin,
    throughputTPerH: (baleT / (fillMin + stopMin)) * 60,
    efficiency: fillMin / (fillMin + stopMin),
  };
}

export interface TransportCycle {
  /** Fill, there, unload and back, min. */
  readonly cycleMin: number;
  /** Units that keep the chopper from waiting. */
  readonly unitsNeeded: number;
}

/**
 * Transport units for a chopper: `cycle = fill + 2 distance / speed + fixed`, `n = ceil(cycle / fill)`.
 *
 * @param fixedMin unloading, hitching and turning of a cycle, min
 */
export function transportCycle(
  fillMin: number,
  distanceKm: number,
  roadKmH: number,
  fixedMin: number,
): TransportCycle {
  requireRange("transportCycle", "fillMin", fillMin, 0.1, 600);
  requireRange("transportCycle", "distanceKm", distanceKm, 0, 200);
  requireRange("transportCycle", "roadKmH", roadKmH, 1, 120);
  requireRange("transportCycle", "fixedMin", fixedMin, 0, 600);
  const cycleMin = fillMin + (2 * distanceKm * 60) / roadKmH + fixedMin;
  // A cycle that is a whole number of fills must not gain a unit through rounding of the division.
  return { cycleMin, unitsNeeded: Math.ceil(cycleMin / fillMin - 1e-9) };
}

/** Share of the time a chopper is busy with this many transport units, 0-1. */
export function chopperBusyShare(units: number, fillMin: number, cycleMin: number): number {
  requireRange("chopperBusyShare", "units", units, 0, 100);
  return Math.min(1, (units * fillMin) / cycleMin);
}

/** Hours that a machine needs for an area, travel and set-up apart. */
export function hoursForArea(areaHa: number, haPerH: number): number {
  requireRange("hoursForArea", "haPerH", haPerH, 0.01, 1000);
  return areaHa / haPerH;
}
