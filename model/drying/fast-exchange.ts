import { FAO56_EQ11 } from "../weather/air.ts";
import type { AirTable } from "./air-table.ts";
import { MOST_PASSES, TEMPERATURE_TOLERANCE_K } from "./exchange.ts";
import { fastExp, fastLog } from "./fast-math.ts";
import type { FastMake, FastPool } from "./fast-swath.ts";
import { HAY_WETTING_BRANCH, MAX_ISOTHERM_RH, MIN_ISOTHERM_RH, STALK_BRANCH } from "./isotherm.ts";

const WETTING_LOG_A = Math.log(HAY_WETTING_BRANCH.a);
const WETTING_C = HAY_WETTING_BRANCH.c;
const PER_WETTING_C = 1 / WETTING_C;
const STALK_LOG_A = Math.log(STALK_BRANCH.a);
const STALK_C = STALK_BRANCH.c;
const PER_STALK_C = 1 / STALK_C;
const MAX_RH = MAX_ISOTHERM_RH;
const MIN_RH = MIN_ISOTHERM_RH;
const { aKPa: TETENS_KPA, b: TETENS_B, cC: TETENS_C } = FAO56_EQ11;
const TETENS_BC = TETENS_B * TETENS_C;
const TOLERANCE_K = TEMPERATURE_TOLERANCE_K;
/** Activity of tissue under a whole film: it exchanges nothing, so it keeps one branch, above any humidity. */
const COVERED = 9;

const DRIES = 1;
const RESTS = 2;
const WETS = 3;

/**
 * `exchange` of exchange.ts over the fields of `make`: reads the film, the pools' moisture and the first guess, and leaves its
 * answer there. Weather-only terms come from the table and logarithms are shared. `saturationKPa` must hold at `riseK`.
 */
export function fastExchange(make: FastMake, air: AirTable, i: number): void {
  const { leaf, stem } = make;
  const wetShare = Math.min(1, make.filmMm * make.perWholeMm);
  make.wetShare = wetShare;
  if (wetShare < 1) {
    const meanDb = leaf.share * leaf.db + stem.share * stem.db;
    make.open = (1 - make.layerLoss * Math.max(0, 1 - meanDb * make.perMixedDb)) * (1 - wetShare);
    // One call in a loop, not two: the engine inlines so much and no more.
    for (let pool = leaf, left = 2; left > 0; left--, pool = stem) conduct(pool, make, air, i);
  } else {
    cover(leaf);
    cover(stem);
  }
  solve(make, air, i);
  findRests(make, air, i);
}

/** Saturation vapour pressure without calls, kPa. */
export function fastSaturationKPa(tempC: number): number {
  return TETENS_KPA * fastExp((TETENS_B * tempC) / (tempC + TETENS_C));
}

/** Conductance and drying activity of a pool at its moisture. */
function conduct(pool: FastPool, make: FastMake, air: AirTable, i: number): void {
  const { db, shapeFloor, thick } = pool;
  const fullness = db * make.perFullDb;
  const shape =
    shapeFloor + (1 - shapeFloor) * (thick ? fullness * Math.sqrt(fullness) : Math.min(1, fullness));
  const density = db >= make.fadeDb ? make.fullDensity : fastExp(make.densitySlope * db);
  pool.mps = pool.freshMps * (shape * density * make.open);
  const logDb = fastLog(db);
  pool.logDb = logDb;
  const x = fastExp(
    thick
      ? (logDb - STALK_LOG_A) * PER_STALK_C
      : (logDb - (air.dryingLogA[i] as number)) * (air.perDryingC[i] as number),
  );
  pool.dries = x / (1 + x);
  pool.wets = -1;
}

function cover(pool: FastPool): void {
  pool.mps = 0;
  pool.dries = COVERED;
  pool.wets = COVERED;
}

function findWettingActivity(pool: FastPool): void {
  const x = fastExp((pool.logDb - WETTING_LOG_A) * PER_WETTING_C);
  pool.wets = pool.thick ? pool.dries : Math.max(pool.dries, x / (1 + x));
}

function branchAt(pool: FastPool, rhFrac: number): number {
  if (pool.dries > rhFrac) return DRIES;
  if (pool.wets < 0) findWettingActivity(pool);
  return pool.wets < rhFrac ? WETS : RESTS;
}

function takeBranch(pool: FastPool, branch: number, uptakeEase: number): void {
  pool.nowMps = branch === DRIES ? pool.mps : branch === WETS ? pool.mps * uptakeEase : 0;
  pool.activity = branch === DRIES ? pool.dries : branch === WETS ? pool.wets : 0;
}

/** Newton's method for the rise, as in exchange.ts; there every line has its reason. */
function solve(make: FastMake, air: AirTable, i: number): void {
  const { p, leaf, stem, wetShare, stableRange } = make;
  const { filmConductance, uptakeEase, stableLeast, stableSlope, freeConvectionMost } = p;
  const airTempC = air.airTempC[i] as number;
  const airKPa = air.vapourPressureKPa[i] as number;
  const soilMps = make.soilMps * (air.soilShare[i] as number);
  const soilKPaMps = soilMps * (air.soilSaturationKPa[i] as number);
  const isDay = air.isDay[i] === 1;
  const radiation = (air.radiationKMps[i] as number) * (isDay ? make.dayLightShare : make.nightLightShare);
  const neutralMps = air.neutralMps[i] as number;
  const radiativeMps = air.radiativeMps[i] as number;
  const perGamma = air.perPsychrometric[i] as number;
  const buoyancyPerK = air.buoyancyPerK[i] as number;

  let { riseK, rhFrac, saturationKPa: es } = make;
  let e = airKPa;
  let leafBranch = 0;
  let stemBranch = 0;
  let filmMps = 0;
  let nextLeafBranch = branchAt(leaf, rhFrac);
  let nextStemBranch = branchAt(stem, rhFrac);
  let nextFilmMps = filmConductance * (rhFrac > 1 ? 1 : wetShare);
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    leafBranch = nextLeafBranch;
    stemBranch = nextStemBranch;
    filmMps = nextFilmMps;
    takeBranch(leaf, leafBranch, uptakeEase);
    takeBranch(stem, stemBranch, uptakeEase);
    const buoyancy = buoyancyPerK * riseK;
    let airMps = neutralMps * freeConvectionMost;
    let airMpsPerK = 0;
    if (buoyancy < 0 && isDay) airMps = neutralMps;
    else if (buoyancy < 0) {
      const stable = 1 / (1 - stableSlope * buoyancy);
      airMps = neutralMps * (stableLeast + stableRange * stable);
      airMpsPerK = neutralMps * (stableRange * stableSlope * buoyancyPerK * stable * stable);
    } else {
      const root = Math.sqrt(1 + buoyancy);
      const fourthRoot = Math.sqrt(root);
      const factor = root * fourthRoot;
      if (factor < freeConvectionMost) {
        airMps = neutralMps * factor;
        airMpsPerK = (neutralMps * 0.75 * buoyancyPerK) / fourthRoot;
      }
    }
    const given = filmMps + leaf.nowMps * leaf.activity + stem.nowMps * stem.activity;
    const open = filmMps + leaf.nowMps + stem.nowMps;
    const all = open + soilMps + airMps;
    const outside = soilKPaMps + airMps * airKPa;
    const givenKPaMps = given * es;
    const perC = 1 / (airTempC + riseK + TETENS_C);
    const powerPerK = TETENS_BC * perC * perC;
    const outsidePerK = airMpsPerK * (airKPa - rhFrac * es);
    const dryMps = airMps + radiativeMps;
    // Excess and slope both times `all`, which spares a division that everything after it would wait for.
    const excess =
      (radiation - dryMps * riseK) * all - (givenKPaMps * (all - open) - open * outside) * perGamma;
    const slope =
      (dryMps + airMpsPerK * riseK) * all +
      (givenKPaMps * powerPerK * (all - open) - open * outsidePerK) * perGamma;
    const move = excess / Math.max(slope, radiativeMps * all);
    const isSmall = Math.abs(move) < TOLERANCE_K;
    riseK += move;
    if (isSmall) es *= saturationGain(move, perC, powerPerK);
    else es = fastSaturationKPa(airTempC + riseK);
    e = (given * es + outside + outsidePerK * move) / all;
    rhFrac = e / es;
    nextLeafBranch = branchAt(leaf, rhFrac);
    nextStemBranch = branchAt(stem, rhFrac);
    nextFilmMps = filmConductance * (rhFrac > 1 ? 1 : wetShare);
    if (isSmall && nextLeafBranch === leafBranch && nextStemBranch === stemBranch && nextFilmMps === filmMps)
      break;
  }
  make.riseK = riseK;
  make.rhFrac = rhFrac;
  make.saturationKPa = es;
  const vapourMmPerH = air.vapourMmPerH[i] as number;
  make.filmLossMmPerH = vapourMmPerH * filmMps * (es - e);
  leaf.lossPerH = vapourMmPerH * leaf.nowMps * (leaf.activity * es - e) * leaf.perKg;
  stem.lossPerH = vapourMmPerH * stem.nowMps * (stem.activity * es - e) * stem.perKg;
}

/**
 * Saturation after a move over saturation before it, for a move below the tolerance: exp(y) with
 * y = b c move / ((t + c)(t + c + move)), both as series. With |move| / (t + c) < 0.0015 and |y| < 0.03 they leave out
 * less than 2e-12 of the value; a division and a table look-up would stand in the way of all that follows.
 */
function saturationGain(move: number, perC: number, powerPerK: number): number {
  const z = move * perC;
  const y = powerPerK * move * (1 - z * (1 - z * (1 - z)));
  const yy = y * y;
  return 1 + y + yy * (0.5 + y * (1 / 6) + yy * (1 / 24 + y * (1 / 120)));
}

/** The moisture towards which each pool moves at the humidity inside the swath. */
function findRests(make: FastMake, air: AirTable, i: number): void {
  const { leaf, stem, rhFrac } = make;
  const h = rhFrac > MAX_RH ? MAX_RH : Math.max(rhFrac, MIN_RH);
  const odds = fastLog(h / (1 - h));
  const dryingDb = fastExp((air.dryingLogA[i] as number) + (air.dryingC[i] as number) * odds);
  const leafGains = leaf.dries < rhFrac;
  const stemGains = stem.dries < rhFrac;
  const wettingDb =
    leafGains || stemGains ? Math.min(fastExp(WETTING_LOG_A + WETTING_C * odds), dryingDb) : dryingDb;
  leaf.restDb = leafGains ? wettingDb : dryingDb;
  stem.restDb = stem.thick ? fastExp(STALK_LOG_A + STALK_C * odds) : stemGains ? wettingDb : dryingDb;
}
