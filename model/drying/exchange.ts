import { FAO56_EQ11 } from "../weather/air.ts";
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
/**
 * The passes end when Newton's step is below this and no pool has changed its branch. What is then left of the error falls
 * with the square of the step: below 0.1 K, where a test carries the solution on (0.035 K seen on the invented spells).
 */
export const TEMPERATURE_TOLERANCE_K = 0.3;

/** One pool as a conductance and a water activity: it gives (activity x es - e), or nothing while it rests. */
interface Pool {
  readonly mps: number;
  readonly activity: number;
}
const AT_REST: Pool = { mps: 0, activity: 0 };

interface Pools {
  readonly film: Pool;
  readonly leaf: Pool;
  readonly stem: Pool;
}

/**
 * Solves the swath's temperature and inner humidity for one moment.
 *
 * Energy: net radiation = rho cp (ga + gr) (Ts - Ta) + latent heat of all pools.
 * Vapour: what the pools and the soil give = ga (e - ea).
 * Newton's method finds the temperature, with the derivative written out; each pass also settles the air's stability and the
 * branch (drying, wetting or at rest) of each pool. The isotherm is taken at air temperature, as its tables are.
 * The state's own rise and humidity are only the first guess.
 */
export function exchange(state: SwathState, make: SwathMake, air: AirTerms, p: DryingParameters): Exchange {
  const wetShare = Math.min(1, state.filmMm / (p.filmWholeKgKg * make.dryMatterKgM2));
  const share = conductanceShares(state, make, p);
  const leafMps = make.leafMps * share.leaf * (1 - wetShare);
  const stemMps = make.stemMps * share.stem * (1 - wetShare);
  const soilMps = make.soilMps * (air.isDay ? 1 : p.soilNightShare);
  const radiation = air.radiationKMps * (air.isDay ? make.dayLightShare : make.nightLightShare);
  const gamma = air.psychrometricKPaPerC;
  const leafDries = oswinActivity(air.dryingA, air.dryingC, state.leafDb);
  const stemDries = make.coarseStem
    ? oswinActivity(STALK_BRANCH.a, STALK_BRANCH.c, state.stemDb)
    : oswinActivity(air.dryingA, air.dryingC, state.stemDb);

  const poolsAt = (rhFrac: number): Pools => ({
    film: { mps: p.filmConductance * (rhFrac > 1 ? 1 : wetShare), activity: 1 },
    leaf: tissuePool(leafMps, state.leafDb, leafDries, rhFrac, false, p),
    stem: tissuePool(stemMps, state.stemDb, stemDries, rhFrac, make.coarseStem, p),
  });

  let { riseK, rhFrac } = state;
  let es = saturationKPa(air.airTempC + riseK);
  let e = air.vapourPressureKPa;
  let pools = poolsAt(rhFrac);
  for (let pass = 0, next = pools; pass < MOST_PASSES; pass++) {
    pools = next;
    const { film, leaf, stem } = pools;
    const airNow = airConductance(riseK, air, p);
    const given = film.mps + leaf.mps * leaf.activity + stem.mps * stem.activity;
    const open = film.mps + leaf.mps + stem.mps;
    const all = open + soilMps + airNow.mps;
    const outside = soilMps * air.soilSaturationKPa + airNow.mps * air.vapourPressureKPa;
    const inward = 1 - open / all;
    // What the energy balance leaves over at this temperature, and by how much less a kelvin more leaves.
    const excess =
      radiation -
      (airNow.mps + air.radiativeMps) * riseK -
      (given * es * inward - (open / all) * outside) / gamma;
    const outsidePerK = airNow.mpsPerK * (air.vapourPressureKPa - rhFrac * es);
    const latentPerK =
      given * saturationSlope(es, air.airTempC + riseK) * inward - (open / all) * outsidePerK;
    const slope = airNow.mps + air.radiativeMps + airNow.mpsPerK * riseK + latentPerK / gamma;
    const move = excess / Math.max(slope, air.radiativeMps);
    riseK += move;
    es = saturationKPa(air.airTempC + riseK);
    e = (given * es + outside + outsidePerK * move) / all;
    rhFrac = e / es;
    next = poolsAt(rhFrac);
    if (Math.abs(move) < TEMPERATURE_TOLERANCE_K && sameBranches(pools, next)) break;
  }
  const { film, leaf, stem } = pools;
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

function sameBranches(a: Pools, b: Pools): boolean {
  const same = (x: Pool, y: Pool) => x.mps === y.mps && x.mps * x.activity === y.mps * y.activity;
  return same(a.film, b.film) && same(a.leaf, b.leaf) && same(a.stem, b.stem);
}

/**
 * Conductance of the air and its change per kelvin of swath: the neutral one times free convection, (1 + buoyancy)^3/4, over a
 * warm swath, times stability over a cold one at night. By day the sunlit ground around keeps the air stirred.
 */
function airConductance(riseK: number, air: AirTerms, p: DryingParameters): { mps: number; mpsPerK: number } {
  const buoyancy = air.buoyancyPerK * riseK;
  if (buoyancy < 0) {
    if (air.isDay) return { mps: air.neutralMps, mpsPerK: 0 };
    const stable = 1 / (1 - p.stableSlope * buoyancy);
    return {
      mps: air.neutralMps * (p.stableLeast + (1 - p.stableLeast) * stable),
      mpsPerK: air.neutralMps * (1 - p.stableLeast) * p.stableSlope * air.buoyancyPerK * stable ** 2,
    };
  }
  const root = Math.sqrt(1 + buoyancy);
  const factor = root * Math.sqrt(root);
  return factor < p.freeConvectionMost
    ? { mps: air.neutralMps * factor, mpsPerK: (air.neutralMps * 0.75 * air.buoyancyPerK) / Math.sqrt(root) }
    : { mps: air.neutralMps * p.freeConvectionMost, mpsPerK: 0 };
}

/** Slope of the saturation curve where it stands at `esKPa`, kPa/K (FAO-56 eq. 13). */
function saturationSlope(esKPa: number, tempC: number): number {
  return (esKPa * FAO56_EQ11.b * FAO56_EQ11.cC) / (tempC + FAO56_EQ11.cC) ** 2;
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
