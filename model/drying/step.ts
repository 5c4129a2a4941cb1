import type { AirTerms } from "./air-terms.ts";
import type { DryingParameters } from "./coefficients.ts";
import type { Exchange } from "./exchange.ts";
import { exchange } from "./exchange.ts";
import { absorbedMm, drainedFilmMm, filmAfter, TRACE_MM } from "./film.ts";
import type { SwathMake, SwathState } from "./swath-state.ts";

/** Water that moved during a step, mm per covered m². */
export interface StepFluxes {
  readonly interceptedMm: number;
  readonly drainedMm: number;
  readonly dewMm: number;
  readonly vapourUptakeMm: number;
  readonly absorbedMm: number;
  readonly evaporationMm: number;
}

export interface StepResult {
  readonly state: SwathState;
  readonly fluxes: StepFluxes;
}

const NO_FLUXES: StepFluxes = {
  interceptedMm: 0,
  drainedMm: 0,
  dewMm: 0,
  vapourUptakeMm: 0,
  absorbedMm: 0,
  evaporationMm: 0,
};
/** Relative change of a pool, and change of the wet share, below which a segment counts as settled. */
export const SETTLED_SHARE = 0.004;
export const SETTLED_WET_SHARE = 0.05;
export const MOST_SEGMENTS = 3;
/** A step with rain or drainage is cut into so many parts: film, drainage and absorption change fast in it. */
export const RAIN_PARTS = 6;
/** The same for a step that starts with a film over the whole surface. */
export const WET_PARTS = 2;

/**
 * One step of the swath: the readable reference of the course.
 *
 * Rain first wets the film, which drains and is absorbed; then film, leaf and stem exchange vapour with the air.
 * A step in which the film runs out is split there, since tissue dries only where it is not wet. Each segment takes
 * its exchange at the middle of the segment, and each pool relaxes exponentially to its rest, so it is stable at any step.
 *
 * @param stepH length of the step, h
 */
export function swathStep(
  state: SwathState,
  make: SwathMake,
  air: AirTerms,
  rainMm: number,
  stepH: number,
  p: DryingParameters,
): StepResult {
  const wholeMm = p.filmWholeKgKg * make.dryMatterKgM2;
  const drains = rainMm > 0 || state.filmMm > p.filmHeldKgKg * make.dryMatterKgM2;
  const parts = drains ? RAIN_PARTS : state.filmMm > wholeMm ? WET_PARTS : 1;
  let result: StepResult = { state, fluxes: NO_FLUXES };
  for (let part = 0; part < parts; part++) {
    result = joined(result, partStep(result.state, make, air, rainMm / parts, stepH / parts, p));
  }
  return result;
}

function partStep(
  state: SwathState,
  make: SwathMake,
  air: AirTerms,
  rainMm: number,
  stepH: number,
  p: DryingParameters,
): StepResult {
  let result = rainStep(state, make, rainMm, stepH, p);
  let leftH = stepH;
  for (let segment = 0; segment < MOST_SEGMENTS && leftH > 0; segment++) {
    const start = exchange(result.state, make, air, p);
    const last = segment === MOST_SEGMENTS - 1;
    const end = last ? null : filmEnd(result.state, make, start, p);
    const ends = end !== null && end.hours < leftH;
    const segmentH = ends ? end.hours : leftH;
    const middle = middleState(result.state, make, start, segmentH / 2, p);
    const half = isSettled(result.state, middle, make, p) ? start : exchange(middle, make, air, p);
    const filmEndMm = ends ? end.filmMm : null;
    result = joined(result, vapourSegment(result.state, middle, make, half, segmentH, p, filmEndMm));
    leftH -= segmentH;
  }
  return result;
}

/** Where the film is heading: to the last of its full cover, or to nothing; null where it grows or is not there. */
interface FilmEnd {
  readonly filmMm: number;
  readonly hours: number;
}

function filmEnd(state: SwathState, make: SwathMake, now: Exchange, p: DryingParameters): FilmEnd | null {
  if (!(state.filmMm > TRACE_MM) || now.filmMmPerH <= 0) return null;
  const wholeMm = p.filmWholeKgKg * make.dryMatterKgM2;
  const filmMm = state.filmMm > wholeMm + TRACE_MM ? wholeMm : 0;
  return { filmMm, hours: (state.filmMm - filmMm) / now.filmMmPerH };
}

/** Rain, drainage (0.8 h) and absorption (15 h) of free water. */
function rainStep(
  state: SwathState,
  make: SwathMake,
  rainMm: number,
  stepH: number,
  p: DryingParameters,
): StepResult {
  if (rainMm <= 0 && state.filmMm <= 0) return { state, fluxes: NO_FLUXES };
  const interceptedMm = rainMm * make.rainShare;
  const heldMm = p.filmHeldKgKg * make.dryMatterKgM2;
  const filmMm = drainedFilmMm(state.filmMm, interceptedMm, heldMm, stepH, p.drainageH);
  // Tissue drinks from the film as it is on average over the step; what the swath cannot hold only runs past.
  const meanMm = Math.min(filmMm, heldMm, (state.filmMm + filmMm) / 2);
  const { leafShare, stemSaturationDb, stemAbsorptionH } = make;
  const leafTake = absorbedMm(meanMm, leafShare, state.leafDb, p.saturationDb, p.absorptionH, stepH);
  const stemTake = absorbedMm(meanMm, 1 - leafShare, state.stemDb, stemSaturationDb, stemAbsorptionH, stepH);
  const takenMm = leafTake + stemTake;
  const leafKg = make.dryMatterKgM2 * make.leafShare;
  const stemKg = make.dryMatterKgM2 * (1 - make.leafShare);
  return {
    state: {
      ...state,
      filmMm: filmMm - takenMm,
      leafDb: state.leafDb + leafTake / leafKg,
      stemDb: state.stemDb + stemTake / stemKg,
    },
    fluxes: {
      ...NO_FLUXES,
      interceptedMm,
      drainedMm: state.filmMm + interceptedMm - filmMm,
      absorbedMm: takenMm,
    },
  };
}

/** The swath half-way through a segment, each pool by one implicit step: enough to take the exchange at. */
function middleState(
  state: SwathState,
  make: SwathMake,
  rate: Exchange,
  hours: number,
  p: DryingParameters,
): SwathState {
  const leafKg = make.dryMatterKgM2 * make.leafShare;
  const stemKg = make.dryMatterKgM2 * (1 - make.leafShare);
  return {
    ...state,
    filmMm: filmAfter(
      state.filmMm,
      state.filmMm,
      rate.filmMmPerH,
      hours,
      p.filmWholeKgKg * make.dryMatterKgM2,
    ),
    leafDb: implicitRelax(state.leafDb, rate.leafRestDb, rate.leafMmPerH / leafKg, hours),
    stemDb: implicitRelax(state.stemDb, rate.stemRestDb, rate.stemMmPerH / stemKg, hours),
    riseK: rate.riseK,
    rhFrac: rate.rhFrac,
  };
}

function implicitRelax(moistureDb: number, restDb: number, lossPerH: number, hours: number): number {
  const distance = moistureDb - restDb;
  if (distance * lossPerH <= 0) return moistureDb;
  return restDb + distance / (1 + (lossPerH / distance) * hours);
}

/** True where so little changes by the middle that the exchange there is the exchange at the start. */
function isSettled(state: SwathState, middle: SwathState, make: SwathMake, p: DryingParameters): boolean {
  const wholeMm = p.filmWholeKgKg * make.dryMatterKgM2;
  const wetChange = Math.min(1, middle.filmMm / wholeMm) - Math.min(1, state.filmMm / wholeMm);
  return (
    Math.abs(middle.leafDb - state.leafDb) < SETTLED_SHARE * state.leafDb &&
    Math.abs(middle.stemDb - state.stemDb) < SETTLED_SHARE * state.stemDb &&
    Math.abs(wetChange) < SETTLED_WET_SHARE
  );
}

/** Vapour exchange over `hours` from `state`, at the rates that held at the state `at`; `filmEndMm` = where the film ends, if known. */
function vapourSegment(
  state: SwathState,
  at: SwathState,
  make: SwathMake,
  rate: Exchange,
  hours: number,
  p: DryingParameters,
  filmEndMm: number | null,
): StepResult {
  const leafKg = make.dryMatterKgM2 * make.leafShare;
  const stemKg = make.dryMatterKgM2 * (1 - make.leafShare);
  const leafDb = relax(state.leafDb, at.leafDb, rate.leafRestDb, rate.leafMmPerH / leafKg, hours);
  const stemDb = relax(state.stemDb, at.stemDb, rate.stemRestDb, rate.stemMmPerH / stemKg, hours);
  const wholeMm = p.filmWholeKgKg * make.dryMatterKgM2;
  const filmMm = filmEndMm ?? filmAfter(state.filmMm, at.filmMm, rate.filmMmPerH, hours, wholeMm);
  const leafLossMm = (state.leafDb - leafDb) * leafKg;
  const stemLossMm = (state.stemDb - stemDb) * stemKg;
  const filmLossMm = state.filmMm - filmMm;
  return {
    state: { ...state, filmMm, leafDb, stemDb, riseK: rate.riseK, rhFrac: rate.rhFrac },
    fluxes: {
      ...NO_FLUXES,
      dewMm: Math.max(0, -filmLossMm),
      vapourUptakeMm: Math.max(0, -leafLossMm) + Math.max(0, -stemLossMm),
      evaporationMm: Math.max(0, filmLossMm) + Math.max(0, leafLossMm) + Math.max(0, stemLossMm),
    },
  };
}

/** Moisture after exponential relaxation to its rest, from the rate of loss (kg/kg/h) seen at the moisture `atDb`. */
function relax(moistureDb: number, atDb: number, restDb: number, lossPerH: number, hours: number): number {
  const distance = atDb - restDb;
  if (distance * lossPerH <= 0) return moistureDb;
  return restDb + (moistureDb - restDb) * Math.exp((-lossPerH / distance) * hours);
}

function joined(first: StepResult, second: StepResult): StepResult {
  const a = first.fluxes;
  const b = second.fluxes;
  return {
    state: second.state,
    fluxes: {
      interceptedMm: a.interceptedMm + b.interceptedMm,
      drainedMm: a.drainedMm + b.drainedMm,
      dewMm: a.dewMm + b.dewMm,
      vapourUptakeMm: a.vapourUptakeMm + b.vapourUptakeMm,
      absorbedMm: a.absorbedMm + b.absorbedMm,
      evaporationMm: a.evaporationMm + b.evaporationMm,
    },
  };
}
