import type { AirTerms } from "./air-terms.ts";
import { saturationKPa } from "./air-terms.ts";
import type { DryingParameters } from "./coefficients.ts";
import {
  dryingActivity,
  dryingEquilibriumDb,
  stalkActivity,
  stalkEquilibriumDb,
  wettingActivity,
  wettingEquilibriumDb,
} from "./isotherm.ts";
import type { SwathMake } from "./swath-state.ts";
import { meanDb } from "./swath-state.ts";

/** The water of the swath as the exchange sees it. */
export interface ExchangeWater {
  /** Share of the exposed surface that free water covers, 0-1. */
  readonly wetShare: number;
  readonly leafDb: number;
  readonly stemDb: number;
  readonly mixedDb: number;
}

/** Vapour exchange of the swath with the air, each in mm/h, positive when water leaves. */
export interface Exchange {
  readonly swathTempC: number;
  /** Humidity inside the swath, 0-1 (above 1 while dew forms). */
  readonly rhFrac: number;
  readonly filmMmPerH: number;
  readonly leafMmPerH: number;
  readonly stemMmPerH: number;
  /** Moisture towards which each pool moves, dry basis. */
  readonly leafRestDb: number;
  readonly stemRestDb: number;
}

const MOST_PASSES = 12;
const TEMPERATURE_TOLERANCE_K = 0.002;

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
 * The chord of the saturation curve makes both linear; a few passes settle the chord, the air's stability and the
 * branch (drying, wetting or at rest) of each pool.
 */
export function exchange(water: ExchangeWater, make: SwathMake, air: AirTerms, p: DryingParameters): Exchange {
  const share = conductanceShares(water, make, p);
  const dryShare = 1 - water.wetShare;
  const leafMps = make.leafMps * share.leaf * dryShare;
  const stemMps = make.stemMps * share.stem * dryShare;
  const soilMps = make.soilMps * (air.isDay ? 1 : p.soilNightShare);
  const radiation = air.radiationKMps * make.lightShare;

  let riseK = 0;
  let rhFrac = air.vapourPressureKPa / air.airSaturationKPa;
  let film = AT_REST;
  let leaf = AT_REST;
  let stem = AT_REST;
  let es = air.airSaturationKPa;
  let e = air.vapourPressureKPa;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const swathTempC = air.airTempC + riseK;
    const airMps = air.neutralMps * stability(riseK, air, p);
    film = { mps: p.filmConductance * (rhFrac > 1 ? 1 : water.wetShare), activity: 1 };
    leaf = hayPool(leafMps, water.leafDb, swathTempC, rhFrac, p.uptakeEase);
    stem = make.coarseStem
      ? stalkPool(stemMps, water.stemDb, rhFrac, p.uptakeEase)
      : hayPool(stemMps, water.stemDb, swathTempC, rhFrac, p.uptakeEase);

    const given = film.mps + leaf.mps * leaf.activity + stem.mps * stem.activity;
    const open = film.mps + leaf.mps + stem.mps;
    const all = open + soilMps + airMps;
    const outside = soilMps * air.soilSaturationKPa + airMps * air.vapourPressureKPa;
    const chord = Math.abs(riseK) < 0.01 ? slopeAt(air) : (saturationKPa(swathTempC) - air.airSaturationKPa) / riseK;
    const perKPa = given * (1 - open / all);
    const gamma = air.psychrometricKPaPerC;
    const conductance = airMps + air.radiativeMps + (perKPa * chord) / gamma;
    const next = (radiation - (perKPa * air.airSaturationKPa - (open / all) * outside) / gamma) / conductance;
    const change = next - riseK;
    // Halving late passes keeps a pool that flips between branches from chasing itself.
    riseK += pass < 4 ? change : change / 2;
    es = saturationKPa(air.airTempC + riseK);
    e = (given * es + outside) / all;
    rhFrac = e / es;
    if (Math.abs(change) < TEMPERATURE_TOLERANCE_K) break;
  }
  const rest = (pool: Pool) => air.vapourMmPerH * pool.mps * (pool.activity * es - e);
  const swathTempC = air.airTempC + riseK;
  const wets = (pool: Pool) => pool.activity * es < e;
  return {
    swathTempC,
    rhFrac,
    filmMmPerH: rest(film),
    leafMmPerH: rest(leaf),
    stemMmPerH: rest(stem),
    leafRestDb: wets(leaf) ? wettingEquilibriumDb(swathTempC, rhFrac) : dryingEquilibriumDb(swathTempC, rhFrac),
    stemRestDb: make.coarseStem
      ? stalkEquilibriumDb(rhFrac)
      : wets(stem)
        ? wettingEquilibriumDb(swathTempC, rhFrac)
        : dryingEquilibriumDb(swathTempC, rhFrac),
  };
}

function slopeAt(air: AirTerms): number {
  return (4098 * air.airSaturationKPa) / (air.airTempC + 237.3) ** 2; // FAO-56 eq. 13
}

function hayPool(mps: number, moistureDb: number, tempC: number, rhFrac: number, uptakeEase: number): Pool {
  const drying = dryingActivity(tempC, moistureDb);
  if (drying > rhFrac) return { mps, activity: drying };
  const wetting = wettingActivity(tempC, moistureDb);
  if (wetting < rhFrac) return { mps: mps * uptakeEase, activity: wetting };
  return AT_REST;
}

function stalkPool(mps: number, moistureDb: number, rhFrac: number, uptakeEase: number): Pool {
  const activity = stalkActivity(moistureDb);
  return { mps: activity < rhFrac ? mps * uptakeEase : mps, activity };
}

/** Factor on the neutral conductance: free convection over a warm swath, stability over a cold one. */
function stability(riseK: number, air: AirTerms, p: DryingParameters): number {
  const buoyancy = air.buoyancyPerK * riseK;
  if (buoyancy >= 0) return Math.min(p.freeConvectionMost, (1 + buoyancy) ** p.freeConvectionPower);
  return p.stableLeast + (1 - p.stableLeast) / (1 - p.stableSlope * buoyancy);
}

/** What moisture, density and the dried-out exposed layer leave of the fresh conductance. */
function conductanceShares(water: ExchangeWater, make: SwathMake, p: DryingParameters): { leaf: number; stem: number } {
  const mean = meanDb(make, water.leafDb, water.stemDb);
  const layer = 1 - make.layerLoss * Math.max(0, 1 - mean / water.mixedDb);
  const density = (moistureDb: number) =>
    Math.exp(-p.densityPower * Math.min(1, moistureDb / p.densityFadeDb) * make.logDensity);
  const leafShape = p.shapeFloor + (1 - p.shapeFloor) * Math.min(1, water.leafDb / p.shapeFullDb);
  // A thick stem is limited inside: it gives water in proportion to what it holds, however wet.
  const stemShape = make.coarseStem
    ? p.coarseShapeFloor + (1 - p.coarseShapeFloor) * (water.stemDb / p.shapeFullDb) ** p.coarseShapePower
    : p.shapeFloor + (1 - p.shapeFloor) * Math.min(1, water.stemDb / p.shapeFullDb);
  return {
    leaf: leafShape * density(water.leafDb) * layer,
    stem: stemShape * density(water.stemDb) * layer,
  };
}
