import type { AirTerms } from "./air-terms.ts";
import { saturationKPa } from "./air-terms.ts";
import type { DryingParameters } from "./coefficients.ts";
import { HAY_WETTING_BRANCH, oswinActivity, oswinDb, STALK_BRANCH } from "./isotherm.ts";
import type { SwathMake, SwathState } from "./swath-state.ts";
import { meanDb } from "./swath-state.ts";

/** Vapour exchange of the swath with the air, each in mm/h, positive when water leaves. */
export interface Exchange {
  /** Swath above air temperature, K. */
  readonly riseK: number;
  /** Humidity inside the swath, 0-1 (above 1 while dew forms). */
  readonly rhFrac: number;
  readonly filmMmPerH: number;
  readonly leafMmPerH: number;
  readonly stemMmPerH: number;
  /** Moisture towards which each pool moves, dry basis. */
  readonly leafRestDb: number;
  readonly stemRestDb: number;
}

export const MOST_PASSES = 12;
/** The passes end when a plain pass would move the swath by less than this; the secant then lands far closer. */
export const TEMPERATURE_TOLERANCE_K = 0.1;
/** The secant is trusted only where its slope is that of a settling iteration: a pool that flips breaks it. */
export const SECANT_SLOPES = { steepest: -3, flattest: -0.3 } as const;
/** Below this rise the chord of the saturation curve is its slope at air temperature. */
export const CHORD_LEAST_K = 0.01;

/** One pool as a conductance and a water activity: it gives (activity x es - e), or nothing while it rests. */
interface Pool {
  readonly mps: number;
  readonly activity: number;
}
const AT_REST: Pool = { mps: 0, activity: 0 };

/**
 * Solves the swath's temperature and inner humidity for one moment.
 *
 * Energy: net radiation = rho cp (ga + gr) (Ts - Ta) + latent heat of all pools.
 * Vapour: what the pools and the soil give = ga (e - ea).
 * The chord of the saturation curve makes both linear; a few passes, sped by a secant, settle the chord, the air's stability and the
 * branch (drying, wetting or at rest) of each pool. The isotherm is taken at air temperature, as its tables are.
 * The state's own rise and humidity are only the first guess.
 */
export function exchange(state: SwathState, make: SwathMake, air: AirTerms, p: DryingParameters): Exchange {
  const wetShare = Math.min(1, state.filmMm / (p.filmWholeKgKg * make.dryMatterKgM2));
  const share = conductanceShares(state, make, p);
  const leafMps = make.leafMps * share.leaf * (1 - wetShare);
  const stemMps = make.stemMps * share.stem * (1 - wetShare);
  const soilMps = make.soilMps * (air.isDay ? 1 : p.soilNightShare);
  const radiation = air.radiationKMps * make.lightShare;
  const gamma = air.psychrometricKPaPerC;
  const leafDries = oswinActivity(air.dryingA, air.dryingC, state.leafDb);
  const stemDries = make.coarseStem
    ? oswinActivity(STALK_BRANCH.a, STALK_BRANCH.c, state.stemDb)
    : oswinActivity(air.dryingA, air.dryingC, state.stemDb);

  let { riseK, rhFrac } = state;
  let lastRiseK = Number.NaN;
  let lastChange = Number.NaN;
  let film = AT_REST;
  let leaf = AT_REST;
  let stem = AT_REST;
  let es = saturationKPa(air.airTempC + riseK);
  let e = air.vapourPressureKPa;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const airMps = air.neutralMps * stability(riseK, air, p);
    film = { mps: p.filmConductance * (rhFrac > 1 ? 1 : wetShare), activity: 1 };
    leaf = tissuePool(leafMps, state.leafDb, leafDries, rhFrac, false, p);
    stem = tissuePool(stemMps, state.stemDb, stemDries, rhFrac, make.coarseStem, p);

    const given = film.mps + leaf.mps * leaf.activity + stem.mps * stem.activity;
    const open = film.mps + leaf.mps + stem.mps;
    const all = open + soilMps + airMps;
    const outside = soilMps * air.soilSaturationKPa + airMps * air.vapourPressureKPa;
    const chord = Math.abs(riseK) < CHORD_LEAST_K ? air.slopeKPaPerC : (es - air.airSaturationKPa) / riseK;
    const perKPa = given * (1 - open / all);
    const conductance = airMps + air.radiativeMps + (perKPa * chord) / gamma;
    const next = (radiation - (perKPa * air.airSaturationKPa - (open / all) * outside) / gamma) / conductance;
    const change = next - riseK;
    const slope = (change - lastChange) / (riseK - lastRiseK);
    const settles = slope > SECANT_SLOPES.steepest && slope < SECANT_SLOPES.flattest;
    lastChange = change;
    lastRiseK = riseK;
    riseK += settles ? -change / slope : change;
    es = saturationKPa(air.airTempC + riseK);
    e = (given * es + outside) / all;
    rhFrac = e / es;
    if (Math.abs(change) < TEMPERATURE_TOLERANCE_K) break;
  }
  const given = (pool: Pool) => air.vapourMmPerH * pool.mps * (pool.activity * es - e);
  return {
    riseK,
    rhFrac,
    filmMmPerH: given(film),
    leafMmPerH: given(leaf),
    stemMmPerH: given(stem),
    leafRestDb: hayRestDb(air, rhFrac, leafDries < rhFrac),
    stemRestDb: make.coarseStem
      ? oswinDb(STALK_BRANCH.a, STALK_BRANCH.c, rhFrac)
      : hayRestDb(air, rhFrac, stemDries < rhFrac),
  };
}

/** A pool that dries at its drying activity, wets at its wetting activity, and rests between the two. */
function tissuePool(
  mps: number,
  moistureDb: number,
  dries: number,
  rhFrac: number,
  oneBranch: boolean,
  p: DryingParameters,
): Pool {
  if (dries > rhFrac) return { mps, activity: dries };
  const wets = oneBranch
    ? dries
    : Math.max(dries, oswinActivity(HAY_WETTING_BRANCH.a, HAY_WETTING_BRANCH.c, moistureDb));
  return wets < rhFrac ? { mps: mps * p.uptakeEase, activity: wets } : AT_REST;
}

function hayRestDb(air: AirTerms, rhFrac: number, wets: boolean): number {
  const dryingDb = oswinDb(air.dryingA, air.dryingC, rhFrac);
  return wets ? Math.min(dryingDb, oswinDb(HAY_WETTING_BRANCH.a, HAY_WETTING_BRANCH.c, rhFrac)) : dryingDb;
}

/** Factor on the neutral conductance: free convection, (1 + buoyancy)^3/4, over a warm swath; stability over a cold one. */
function stability(riseK: number, air: AirTerms, p: DryingParameters): number {
  const buoyancy = air.buoyancyPerK * riseK;
  if (buoyancy < 0) return p.stableLeast + (1 - p.stableLeast) / (1 - p.stableSlope * buoyancy);
  const root = Math.sqrt(1 + buoyancy);
  return Math.min(p.freeConvectionMost, root * Math.sqrt(root));
}

/** What moisture, density and the dried-out exposed layer leave of the fresh conductance. */
function conductanceShares(
  state: SwathState,
  make: SwathMake,
  p: DryingParameters,
): { leaf: number; stem: number } {
  const mean = meanDb(make, state.leafDb, state.stemDb);
  const layer = 1 - make.layerLoss * Math.max(0, 1 - mean / state.mixedDb);
  const density = (moistureDb: number) =>
    Math.exp(-p.densityPower * Math.min(1, moistureDb / p.densityFadeDb) * make.logDensity);
  const leafShape = p.shapeFloor + (1 - p.shapeFloor) * Math.min(1, state.leafDb / p.shapeFullDb);
  // A thick stem is limited inside: it gives water in proportion to what it holds, however wet.
  const stemShape = make.coarseStem
    ? p.coarseShapeFloor + (1 - p.coarseShapeFloor) * coarseShape(state.stemDb / p.shapeFullDb)
    : p.shapeFloor + (1 - p.shapeFloor) * Math.min(1, state.stemDb / p.shapeFullDb);
  return {
    leaf: leafShape * density(state.leafDb) * layer,
    stem: stemShape * density(state.stemDb) * layer,
  };
}

/** Relative conductance of a thick stem, fullness^(3/2). */
function coarseShape(fullness: number): number {
  return fullness * Math.sqrt(fullness);
}
