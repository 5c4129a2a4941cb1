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
/** Share of a pool by which the exchange may be taken beside the middle of a segment, and the same of the wet share. */
export const SETTLED_SHARE = 0.04;
export const SETTLED_WET_SHARE = 0.05;
/** A segment in which a pool would lose or gain more than this share of its water is cut, into so many pieces at most. */
export const SWIFT_SHARE = 0.18;
export const MOST_CUTS = 4;
export const MOST_SEGMENTS = 8;
/** A trend is a guess of the middle only; it never takes more than half of a pool. */
export const LEAST_TREND_SHARE = 0.5;
/** A step with rain or drainage is cut into so many parts: film, drainage and absorption change fast in it. */
export const RAIN_PARTS = 10;

/**
 * One step of the swath: the readable reference of the course.
 *
 * Half of the rain wets the film, which drains and is absorbed; then film, leaf and stem exchange vapour with the air; then
 * comes the other half, so that neither goes before the other. The vapour is exchanged in segments: they end where the film
 * runs out, since tissue dries only where it is not wet, and where a pool would change swiftly. Each takes its exchange near
 * its middle (on a dry surface at once where the last trend leads, else where a first exchange leads) and each pool relaxes
 * exponentially to its rest, so it is stable at any step.
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
  const drains = rainMm > 0 || state.filmMm > p.filmHeldKgKg * make.dryMatterKgM2;
  const parts = drains ? RAIN_PARTS : 1;
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
  let result = rainStep(state, make, rainMm / 2, stepH / 2, p);
  let leftH = stepH;
  for (let segment = 0; segment < MOST_SEGMENTS && leftH > 0; segment++) {
    const from = result.state;
    const guess = guessedState(from, leftH / 2);
    const first = exchange(guess, make, air, p);
    let segmentH = leftH;
    let filmEndMm: number | null = null;
    if (segment < MOST_SEGMENTS - 1) {
      const end = filmEnd(from, make, first, p);
      if (end !== null && end.hours < leftH) {
        segmentH = end.hours;
        filmEndMm = end.filmMm;
      }
      const pieces = Math.min(MOST_CUTS, Math.ceil(changeShare(from, make, first, segmentH) / SWIFT_SHARE));
      if (pieces > 1) {
        segmentH /= pieces;
        filmEndMm = null;
      }
    }
    const middle = middleState(from, guess, make, first, segmentH / 2, p);
    const settled = isSettled(from, guess, middle, make, p);
    const rate = settled ? first : exchange(middle, make, air, p);
    // The rates go with the tissue that they were taken at.
    const at = settled ? { ...guess, filmMm: middle.filmMm } : middle;
    result = joined(result, vapourSegment(from, at, make, rate, segmentH, p, filmEndMm));
    leftH -= segmentH;
  }
  return joined(result, rainStep(result.state, make, rainMm / 2, stepH / 2, p));
}

/** The state at which a segment first takes its exchange: where the trend leads on a dry surface, else as it is. */
function guessedState(state: SwathState, hours: number): SwathState {
  const { trend } = state;
  if (state.filmMm > 0 || trend === undefined) return state;
  return {
    ...state,
    leafDb: trendDb(state.leafDb, trend.leafPerH, hours),
    stemDb: trendDb(state.stemDb, trend.stemPerH, hours),
  };
}

function trendDb(moistureDb: number, trendPerH: number, hours: number): number {
  return moistureDb * Math.max(LEAST_TREND_SHARE, 1 + trendPerH * hours);
}

/** The greater share of leaf or stem water that would come or go in these hours at this rate. */
function changeShare(state: SwathState, make: SwathMake, rate: Exchange, hours: number): number {
  const leafKg = make.dryMatterKgM2 * make.leafShare;
  const stemKg = make.dryMatterKgM2 * (1 - make.leafShare);
  const leaf = Math.abs(rate.leafMmPerH) / (leafKg * state.leafDb);
  const stem = Math.abs(rate.stemMmPerH) / (stemKg * state.stemDb);
  return Math.max(leaf, stem) * hours;
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
  at: SwathState,
  make: SwathMake,
  rate: Exchange,
  hours: number,
  p: DryingParameters,
): SwathState {
  const leafKg = make.dryMatterKgM2 * make.leafShare;
  const stemKg = make.dryMatterKgM2 * (1 - make.leafShare);
  const wholeMm = p.filmWholeKgKg * make.dryMatterKgM2;
  return {
    ...state,
    filmMm: filmAfter(state.filmMm, state.filmMm, rate.filmMmPerH, hours, wholeMm),
    leafDb: implicitRelax(state.leafDb, at.leafDb, rate.leafRestDb, rate.leafMmPerH / leafKg, hours),
    stemDb: implicitRelax(state.stemDb, at.stemDb, rate.stemRestDb, rate.stemMmPerH / stemKg, hours),
    riseK: rate.riseK,
    rhFrac: rate.rhFrac,
  };
}

function implicitRelax(
  moistureDb: number,
  atDb: number,
  restDb: number,
  lossPerH: number,
  hours: number,
): number {
  const distance = atDb - restDb;
  if (distance * lossPerH <= 0) return moistureDb;
  return restDb + (moistureDb - restDb) / (1 + (lossPerH / distance) * hours);
}

/** True where the guess lies so near the middle that the exchange is the same there. */
function isSettled(
  state: SwathState,
  guess: SwathState,
  middle: SwathState,
  make: SwathMake,
  p: DryingParameters,
): boolean {
  const wholeMm = p.filmWholeKgKg * make.dryMatterKgM2;
  const wetChange = Math.min(1, middle.filmMm / wholeMm) - Math.min(1, guess.filmMm / wholeMm);
  return (
    Math.abs(middle.leafDb - guess.leafDb) < SETTLED_SHARE * state.leafDb &&
    Math.abs(middle.stemDb - guess.stemDb) < SETTLED_SHARE * state.stemDb &&
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
    state: {
      ...state,
      filmMm,
      leafDb,
      stemDb,
      riseK: rate.riseK,
      rhFrac: rate.rhFrac,
      trend: {
        leafPerH: (leafDb - state.leafDb) / (state.leafDb * hours),
        stemPerH: (stemDb - state.stemDb) / (state.stemDb * hours),
      },
    },
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
