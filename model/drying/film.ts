/** Free water on the surface of the swath: what drains, what tissue drinks, what is left after vapour took its part. */

/** Free water below this is gone, mm; it is counted as evaporated. */
export const TRACE_MM = 1e-5;

/**
 * Free water after rain was caught and the excess over what the swath holds has drained, mm.
 * Excess X with steady inflow, from the moment the store is full: X' = inflow - X / drainageH
 * (0.8 h: McGechan & Pitt, The rewetting of partially dried grass swaths by rain, part 3).
 */
export function drainedFilmMm(
  filmMm: number,
  caughtMm: number,
  heldMm: number,
  stepH: number,
  drainageH: number,
): number {
  const filled = filmMm + caughtMm;
  if (filled <= heldMm) return filled;
  const inflow = caughtMm / stepH;
  const fullAfterH = filmMm >= heldMm || inflow <= 0 ? 0 : (heldMm - filmMm) / inflow;
  const excess0 = Math.max(0, filmMm - heldMm);
  const steady = inflow * drainageH;
  return heldMm + steady + (excess0 - steady) * Math.exp(-(stepH - fullAfterH) / drainageH);
}

/**
 * Free water that a pool with this share of the dry matter drinks in a step, mm: time constant 15 h in dry grass (the same
 * source, which gives it for uptake as a whole), slower as the tissue fills (from memory).
 */
export function absorbedMm(
  filmMm: number,
  share: number,
  moistureDb: number,
  saturationDb: number,
  timeH: number,
  stepH: number,
): number {
  const thirst = 1 - moistureDb / saturationDb;
  return thirst > 0 ? filmMm * share * (1 - Math.exp((-stepH * thirst) / timeH)) : 0;
}

/** A film over the whole surface goes at a steady rate; a partial one goes in proportion to what is left. */
export function filmAfter(
  filmMm: number,
  atMm: number,
  lossMmPerH: number,
  hours: number,
  wholeMm: number,
): number {
  if (lossMmPerH < 0) return filmMm - lossMmPerH * hours;
  // Gone by the middle of the segment: gone at its end.
  if (atMm <= 0) return 0;
  const after =
    filmMm > wholeMm ? filmMm - lossMmPerH * hours : filmMm * Math.exp((-lossMmPerH / atMm) * hours);
  return after < TRACE_MM ? 0 : after;
}
