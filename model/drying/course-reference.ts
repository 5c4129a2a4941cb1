import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { AirTerms } from "./air-terms.ts";
import { airTerms, soilTemperatures } from "./air-terms.ts";
import type { DryingParameters } from "./coefficients.ts";
import { DRYING_PARAMETERS } from "./coefficients.ts";
import type { Course } from "./course.ts";
import { emptyCourse } from "./course.ts";
import { CROP_CATALOGUE } from "./crops.ts";
import { freeWaterAtCut } from "./free-water.ts";
import { oswinDb, STALK_BRANCH } from "./isotherm.ts";
import { wetBasis } from "./moisture.ts";
import type { Operation } from "./operations.ts";
import { coverAfter, operationLoss } from "./operations.ts";
import type { SwathRequest } from "./request.ts";
import { swathStep } from "./step.ts";
import type { SwathMake, SwathState } from "./swath-state.ts";
import { coveredGM2, FIRST_GUESS_RH, meanDb, splitMoistureDb, swathMake } from "./swath-state.ts";

/**
 * The course by the readable step: what the fast course is tested against, to 1e-9.
 *
 * @param subSteps parts into which every hour is cut; more than 1 only to study convergence
 */
export function referenceCourse(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
  p: DryingParameters = DRYING_PARAMETERS,
  subSteps = 1,
): Course {
  const crop = CROP_CATALOGUE[swath.crop];
  const first = Math.floor((cutUtcMs - weather.startUtcMs) / HOUR_MS);
  const course = emptyCourse(weather, first, cutUtcMs);
  const soilTempC = soilTemperatures(weather);
  const passes = [...operations].sort((a, b) => a.atUtcMs - b.atUtcMs);

  let coveredFraction = swath.coveredFraction;
  let dryMatterTHa = swath.dryMatterTHa;
  let make = swathMake(swath, coveredGM2(dryMatterTHa, coveredFraction) / 1000, p);
  const split = splitMoistureDb(crop, swath.initialMoistureWb);
  let state: SwathState = {
    filmMm: freeWaterAtCut(weather, swath, cutUtcMs, make.dryMatterKgM2),
    ...split,
    mixedDb: meanDb(make, split.leafDb, split.stemDb),
    riseK: 0,
    rhFrac: FIRST_GUESS_RH,
  };

  for (let i = 0; i < course.count; i++) {
    const hour = first + i;
    const hourStartMs = weather.startUtcMs + hour * HOUR_MS;
    const air = airTerms(weather, hour, soilTempC[hour] as number, p);
    // An hour is cut where the crop is cut and where a machine passes.
    let fromMs = i === 0 ? cutUtcMs : hourStartMs;
    while (fromMs < hourStartMs + HOUR_MS) {
      while (passes.length > 0 && (passes[0] as Operation).atUtcMs <= fromMs) {
        const pass = passes.shift() as Operation;
        if (pass.atUtcMs < cutUtcMs) continue;
        const before = waterMm(make, state);
        const tissueWb = wetBasis(meanDb(make, state.leafDb, state.stemDb));
        const loss = operationLoss(pass.kind, crop, tissueWb, dryMatterTHa);
        dryMatterTHa *= 1 - loss;
        coveredFraction = coverAfter(pass, coveredFraction);
        const next = swathMake(swath, coveredGM2(dryMatterTHa, coveredFraction) / 1000, p);
        state = {
          ...state,
          filmMm: (state.filmMm * next.dryMatterKgM2) / make.dryMatterKgM2,
          mixedDb: meanDb(next, state.leafDb, state.stemDb),
        };
        make = next;
        add(course.operationMm, i, waterMm(make, state) - before);
      }
      const nextPassMs = passes[0]?.atUtcMs ?? Number.POSITIVE_INFINITY;
      const untilMs = Math.min(hourStartMs + HOUR_MS, nextPassMs);
      const spanH = (untilMs - fromMs) / HOUR_MS;
      const rainMm = (weather.rainMm[hour] as number) * spanH;
      add(course.rainMm, i, rainMm);
      for (let part = 0; part < subSteps; part++) {
        const { state: next, fluxes } = swathStep(state, make, air, rainMm / subSteps, spanH / subSteps, p);
        state = next;
        add(course.interceptedMm, i, fluxes.interceptedMm);
        add(course.drainedMm, i, fluxes.drainedMm);
        add(course.dewMm, i, fluxes.dewMm);
        add(course.vapourUptakeMm, i, fluxes.vapourUptakeMm);
        add(course.absorbedMm, i, fluxes.absorbedMm);
        add(course.evaporationMm, i, fluxes.evaporationMm);
      }
      fromMs = untilMs;
    }
    const mean = meanDb(make, state.leafDb, state.stemDb);
    if (mean > state.mixedDb) state = { ...state, mixedDb: mean };
    course.moistureWb[i] = wetBasis(mean);
    course.leafMoistureWb[i] = wetBasis(state.leafDb);
    course.stemMoistureWb[i] = wetBasis(state.stemDb);
    course.equilibriumWb[i] = equilibriumWb(make, air);
    course.dryMatterGM2[i] = make.dryMatterKgM2 * 1000;
    course.coveredFraction[i] = coveredFraction;
    course.freeWaterMm[i] = state.filmMm;
  }
  return course;
}

/** Tissue and free water together, mm per covered m². */
function waterMm(make: SwathMake, state: SwathState): number {
  return state.filmMm + make.dryMatterKgM2 * meanDb(make, state.leafDb, state.stemDb);
}

/** Moisture at which the whole swath would rest in this air, drying branch, wet basis. */
function equilibriumWb(make: SwathMake, air: AirTerms): number {
  const rhFrac = air.vapourPressureKPa / air.airSaturationKPa;
  const hay = oswinDb(air.dryingA, air.dryingC, rhFrac);
  return wetBasis(meanDb(make, hay, make.coarseStem ? oswinDb(STALK_BRANCH.a, STALK_BRANCH.c, rhFrac) : hay));
}

function add(column: Float64Array, i: number, amount: number): void {
  column[i] = (column[i] as number) + amount;
}
