import { FAO56_EQ11 } from "../weather/air.ts";
import type { AirTable } from "./air-table.ts";
import { logOdds } from "./air-table.ts";
import type { DryingParameters } from "./coefficients.ts";
import { CHORD_LEAST_K, MOST_PASSES, SECANT_SLOPES, TEMPERATURE_TOLERANCE_K } from "./exchange.ts";
import { absorbedMm, drainedFilmMm, filmAfter, TRACE_MM } from "./film.ts";
import { HAY_WETTING_BRANCH, STALK_BRANCH } from "./isotherm.ts";
import { MOST_SEGMENTS, RAIN_PARTS, SETTLED_SHARE, SETTLED_WET_SHARE, WET_PARTS } from "./step.ts";
import type { SwathMake } from "./swath-state.ts";

const WETTING_LOG_A = Math.log(HAY_WETTING_BRANCH.a);
const WETTING_C = HAY_WETTING_BRANCH.c;
const STALK_LOG_A = Math.log(STALK_BRANCH.a);
const STALK_C = STALK_BRANCH.c;
const STEEPEST = SECANT_SLOPES.steepest;
const FLATTEST = SECANT_SLOPES.flattest;
const { aKPa: TETENS_KPA, b: TETENS_B, cC: TETENS_C } = FAO56_EQ11;

/** The swath as plain mutable numbers, and the water that moved in the current hour. */
export interface FastSwath {
  filmMm: number;
  leafDb: number;
  stemDb: number;
  mixedDb: number;
  riseK: number;
  rhFrac: number;
  interceptedMm: number;
  drainedMm: number;
  dewMm: number;
  vapourUptakeMm: number;
  absorbedMm: number;
  evaporationMm: number;
}

/**
 * The same step as swathStep, written as one loop over plain numbers for the sweep: no objects, logarithms shared,
 * weather-only terms read from a table. It must follow step.ts and exchange.ts line by line; a test holds the two
 * to 1e-9. Adds to the hour's fluxes in `s`.
 */
export function fastStep(
  s: FastSwath,
  make: SwathMake,
  air: AirTable,
  i: number,
  rainMm: number,
  stepH: number,
  p: DryingParameters,
): void {
  const airTempC = air.airTempC[i] as number;
  const ea = air.vapourPressureKPa[i] as number;
  const airEs = air.airSaturationKPa[i] as number;
  const slope = air.slopeKPaPerC[i] as number;
  const soilEs = air.soilSaturationKPa[i] as number;
  const radiation = (air.radiationKMps[i] as number) * make.lightShare;
  const neutralMps = air.neutralMps[i] as number;
  const radiativeMps = air.radiativeMps[i] as number;
  const perGamma = 1 / (air.psychrometricKPaPerC[i] as number);
  const vapourMmPerH = air.vapourMmPerH[i] as number;
  const buoyancyPerK = air.buoyancyPerK[i] as number;
  const soilMps = make.soilMps * (air.soilShare[i] as number);
  const hayLogA = air.dryingLogA[i] as number;
  const hayC = air.dryingC[i] as number;

  const { dryMatterKgM2, leafShare, logDensity, fullDensity, layerLoss, coarseStem } = make;
  const { stemSaturationDb, stemAbsorptionH } = make;
  const { filmConductance, uptakeEase, shapeFullDb, densityFadeDb } = p;
  const { stableLeast, stableSlope, freeConvectionMost } = p;
  const shapeFloor = p.shapeFloor;
  const coarseFloor = p.coarseShapeFloor;
  const wholeMm = p.filmWholeKgKg * dryMatterKgM2;
  const heldMm = p.filmHeldKgKg * dryMatterKgM2;
  const stemShare = 1 - leafShare;
  const leafKg = dryMatterKgM2 * leafShare;
  const stemKg = dryMatterKgM2 * stemShare;
  const perFull = 1 / shapeFullDb;
  const shapeRange = 1 - shapeFloor;
  const perHayC = 1 / hayC;
  const perStemC = coarseStem ? 1 / STALK_C : perHayC;
  const perMixed = 1 / s.mixedDb;
  const densitySlope = (-p.densityPower * logDensity) / densityFadeDb;
  const stemLogA = coarseStem ? STALK_LOG_A : hayLogA;

  let { filmMm, leafDb, stemDb, riseK, rhFrac } = s;
  const parts = rainMm > 0 || filmMm > heldMm ? RAIN_PARTS : filmMm > wholeMm ? WET_PARTS : 1;
  const partH = stepH / parts;
  const partRainMm = rainMm / parts;

  for (let part = 0; part < parts; part++) {
    if (partRainMm > 0 || filmMm > 0) {
      const interceptedMm = partRainMm * make.rainShare;
      const after = drainedFilmMm(filmMm, interceptedMm, heldMm, partH, p.drainageH);
      const meanMm = Math.min(after, heldMm, (filmMm + after) / 2);
      const leafTake = absorbedMm(meanMm, leafShare, leafDb, p.saturationDb, p.absorptionH, partH);
      const stemTake = absorbedMm(meanMm, stemShare, stemDb, stemSaturationDb, stemAbsorptionH, partH);
      s.interceptedMm += interceptedMm;
      s.drainedMm += filmMm + interceptedMm - after;
      s.absorbedMm += leafTake + stemTake;
      filmMm = after - (leafTake + stemTake);
      leafDb += leafTake / leafKg;
      stemDb += stemTake / stemKg;
    }

    let leftH = partH;
    for (let segment = 0; segment < MOST_SEGMENTS && leftH > 0; segment++) {
      let segmentH = leftH;
      let filmEndMm = -1;
      let atFilmMm = filmMm;
      let atLeafDb = leafDb;
      let atStemDb = stemDb;
      let es = TETENS_KPA * Math.exp((TETENS_B * (airTempC + riseK)) / (airTempC + riseK + TETENS_C));
      let filmLoss = 0;
      let leafLoss = 0;
      let stemLoss = 0;
      let leafRest = 0;
      let stemRest = 0;
      let rateFilmMm = filmMm;
      let rateLeafDb = leafDb;
      let rateStemDb = stemDb;
      for (let half = 0; half < 2; half++) {
        // Exchange at (atFilmMm, atLeafDb, atStemDb): see exchange.ts.
        const wetShare = Math.min(1, atFilmMm / wholeMm);
        let leafMps = 0;
        let stemMps = 0;
        // Tissue under a whole film exchanges nothing, whatever its activity.
        let leafDries = 2;
        let stemDries = 2;
        let leafLog = 0;
        let stemLog = 0;
        if (wetShare < 1) {
          const mean = leafShare * atLeafDb + stemShare * atStemDb;
          const layer = (1 - layerLoss * Math.max(0, 1 - mean * perMixed)) * (1 - wetShare);
          const leafShape = shapeFloor + shapeRange * Math.min(1, atLeafDb * perFull);
          const fullness = atStemDb * perFull;
          const stemShape = coarseStem
            ? coarseFloor + (1 - coarseFloor) * (fullness * Math.sqrt(fullness))
            : shapeFloor + shapeRange * Math.min(1, fullness);
          const leafDensity = atLeafDb >= densityFadeDb ? fullDensity : Math.exp(densitySlope * atLeafDb);
          const stemDensity = atStemDb >= densityFadeDb ? fullDensity : Math.exp(densitySlope * atStemDb);
          leafMps = make.leafMps * (leafShape * leafDensity * layer);
          stemMps = make.stemMps * (stemShape * stemDensity * layer);
          leafLog = Math.log(atLeafDb);
          stemLog = Math.log(atStemDb);
          const leafX = Math.exp((leafLog - hayLogA) * perHayC);
          const stemX = Math.exp((stemLog - stemLogA) * perStemC);
          leafDries = leafX / (1 + leafX);
          stemDries = stemX / (1 + stemX);
        }
        let leafWets = -1;
        let stemWets = -1;

        let e = ea;
        let lastRiseK = 0;
        let lastChange = 0;
        let filmNowMps = 0;
        let leafNowMps = 0;
        let stemNowMps = 0;
        let leafActivity = 0;
        let stemActivity = 0;
        for (let pass = 0; pass < MOST_PASSES; pass++) {
          const buoyancy = buoyancyPerK * riseK;
          let factor: number;
          if (buoyancy < 0) factor = stableLeast + (1 - stableLeast) / (1 - stableSlope * buoyancy);
          else {
            const root = Math.sqrt(1 + buoyancy);
            factor = root * Math.sqrt(root);
            if (factor > freeConvectionMost) factor = freeConvectionMost;
          }
          const airMps = neutralMps * factor;
          filmNowMps = filmConductance * (rhFrac > 1 ? 1 : wetShare);
          if (leafDries > rhFrac) {
            leafNowMps = leafMps;
            leafActivity = leafDries;
          } else {
            if (leafWets < 0) leafWets = Math.max(leafDries, wettingActivity(leafLog));
            leafNowMps = leafWets < rhFrac ? leafMps * uptakeEase : 0;
            leafActivity = leafWets < rhFrac ? leafWets : 0;
          }
          if (stemDries > rhFrac) {
            stemNowMps = stemMps;
            stemActivity = stemDries;
          } else {
            if (stemWets < 0)
              stemWets = coarseStem ? stemDries : Math.max(stemDries, wettingActivity(stemLog));
            stemNowMps = stemWets < rhFrac ? stemMps * uptakeEase : 0;
            stemActivity = stemWets < rhFrac ? stemWets : 0;
          }
          const given = filmNowMps + leafNowMps * leafActivity + stemNowMps * stemActivity;
          const open = filmNowMps + leafNowMps + stemNowMps;
          const perAll = 1 / (open + soilMps + airMps);
          const openShare = open * perAll;
          const outside = soilMps * soilEs + airMps * ea;
          const chord = Math.abs(riseK) < CHORD_LEAST_K ? slope : (es - airEs) / riseK;
          const perKPa = given * (1 - openShare);
          const conductance = airMps + radiativeMps + perKPa * chord * perGamma;
          const next = (radiation - (perKPa * airEs - openShare * outside) * perGamma) / conductance;
          const change = next - riseK;
          let move = change;
          if (pass > 0) {
            const secant = (change - lastChange) / (riseK - lastRiseK);
            if (secant > STEEPEST && secant < FLATTEST) move = -change / secant;
          }
          lastChange = change;
          lastRiseK = riseK;
          riseK += move;
          const tempC = airTempC + riseK;
          es = TETENS_KPA * Math.exp((TETENS_B * tempC) / (tempC + TETENS_C));
          e = (given * es + outside) * perAll;
          rhFrac = e / es;
          if (Math.abs(change) < TEMPERATURE_TOLERANCE_K) break;
        }
        filmLoss = vapourMmPerH * filmNowMps * (es - e);
        leafLoss = (vapourMmPerH * leafNowMps * (leafActivity * es - e)) / leafKg;
        stemLoss = (vapourMmPerH * stemNowMps * (stemActivity * es - e)) / stemKg;
        const odds = logOdds(rhFrac);
        leafRest = Math.exp(hayLogA + hayC * odds);
        stemRest = coarseStem ? Math.exp(STALK_LOG_A + STALK_C * odds) : leafRest;
        const leafGains = leafDries < rhFrac;
        const stemGains = !coarseStem && stemDries < rhFrac;
        if (leafGains || stemGains) {
          const wetRest = Math.min(Math.exp(WETTING_LOG_A + WETTING_C * odds), leafRest);
          if (leafGains) leafRest = wetRest;
          if (stemGains) stemRest = wetRest;
        }
        rateFilmMm = atFilmMm;
        rateLeafDb = atLeafDb;
        rateStemDb = atStemDb;
        if (half === 1) break;

        // The middle of the segment, and whether the exchange has changed by then.
        if (segment < MOST_SEGMENTS - 1 && filmMm > TRACE_MM && filmLoss > 0) {
          filmEndMm = filmMm > wholeMm + TRACE_MM ? wholeMm : 0;
          const endH = (filmMm - filmEndMm) / filmLoss;
          if (endH < leftH) segmentH = endH;
          else filmEndMm = -1;
        }
        const halfH = segmentH / 2;
        const leafGap = leafDb - leafRest;
        const stemGap = stemDb - stemRest;
        atFilmMm = filmAfter(filmMm, filmMm, filmLoss, halfH, wholeMm);
        if (leafGap * leafLoss > 0) atLeafDb = leafRest + leafGap / (1 + (leafLoss / leafGap) * halfH);
        if (stemGap * stemLoss > 0) atStemDb = stemRest + stemGap / (1 + (stemLoss / stemGap) * halfH);
        if (
          Math.abs(atLeafDb - leafDb) < SETTLED_SHARE * leafDb &&
          Math.abs(atStemDb - stemDb) < SETTLED_SHARE * stemDb &&
          Math.abs(Math.min(1, atFilmMm / wholeMm) - wetShare) < SETTLED_WET_SHARE
        ) {
          // Film goes in proportion to what there is at the middle, as in step.ts.
          rateFilmMm = atFilmMm;
          rateLeafDb = atLeafDb;
          rateStemDb = atStemDb;
          break;
        }
      }
      const leafGap = rateLeafDb - leafRest;
      const stemGap = rateStemDb - stemRest;
      const leafNext =
        leafGap * leafLoss <= 0
          ? leafDb
          : leafRest + (leafDb - leafRest) * Math.exp((-leafLoss / leafGap) * segmentH);
      const stemNext =
        stemGap * stemLoss <= 0
          ? stemDb
          : stemRest + (stemDb - stemRest) * Math.exp((-stemLoss / stemGap) * segmentH);
      const filmNext =
        filmEndMm >= 0 ? filmEndMm : filmAfter(filmMm, rateFilmMm, filmLoss, segmentH, wholeMm);
      const leafLossMm = (leafDb - leafNext) * leafKg;
      const stemLossMm = (stemDb - stemNext) * stemKg;
      const filmLossMm = filmMm - filmNext;
      if (leafLossMm > 0) s.evaporationMm += leafLossMm;
      else s.vapourUptakeMm -= leafLossMm;
      if (stemLossMm > 0) s.evaporationMm += stemLossMm;
      else s.vapourUptakeMm -= stemLossMm;
      if (filmLossMm > 0) s.evaporationMm += filmLossMm;
      else s.dewMm -= filmLossMm;
      filmMm = filmNext;
      leafDb = leafNext;
      stemDb = stemNext;
      leftH -= segmentH;
    }
  }
  s.filmMm = filmMm;
  s.leafDb = leafDb;
  s.stemDb = stemDb;
  s.riseK = riseK;
  s.rhFrac = rhFrac;
}

function wettingActivity(logMoisture: number): number {
  const x = Math.exp((logMoisture - WETTING_LOG_A) / WETTING_C);
  return x / (1 + x);
}
