import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { AirTable } from "./air-table.ts";
import { airTable } from "./air-table.ts";
import type { DryingParameters } from "./coefficients.ts";
import { DRYING_PARAMETERS } from "./coefficients.ts";
import type { Course, MoistureCourse, SweepCourse } from "./course-columns.ts";
import { hourOf, moistureOver } from "./course-columns.ts";
import { CROP_CATALOGUE } from "./crops.ts";
import { fastStep } from "./fast-step.ts";
import type { FastMake, FastSwath } from "./fast-swath.ts";
import { fastMake } from "./fast-swath.ts";
import { freeWaterAtCut } from "./free-water.ts";
import { wetBasis } from "./moisture.ts";
import type { Operation } from "./operations.ts";
import { coverAfter, operationLoss } from "./operations.ts";
import type { SwathRequest } from "./request.ts";
import { type RunState, swathAt, twinOf } from "./run-state.ts";
import type { SwathMake } from "./swath-state.ts";
import { coveredGM2, FIRST_GUESS_RH, meanDb, splitMoistureDb, swathMake } from "./swath-state.ts";

/** Tables already made, by weather: the same weather always gives the same table, so this is only a saving. */
const TABLES = new WeakMap<HourlyWeather, { readonly p: DryingParameters; readonly table: AirTable }>();

/** Parameters of the swath alone: a draw that differs in no others reads the same air. */
const SWATH_ONLY: ReadonlySet<string> = new Set<keyof DryingParameters>(["freshConductance"]);
const AIR_PARAMETERS = (Object.keys(DRYING_PARAMETERS) as (keyof DryingParameters)[]).filter(
  (name) => !SWATH_ONLY.has(name),
);

function sameAir(a: DryingParameters, b: DryingParameters): boolean {
  return a === b || AIR_PARAMETERS.every((name) => a[name] === b[name]);
}

function tableOf(weather: HourlyWeather, p: DryingParameters): AirTable {
  const known = TABLES.get(weather);
  if (known && sameAir(known.p, p)) return known.table;
  const table = airTable(weather, p);
  TABLES.set(weather, { p, table });
  return table;
}

/** A course that is run as far as it is needed: hours from `done` on are not filled yet. */
export interface CourseRun {
  readonly course: MoistureCourse;
  /** The same course where more is kept of it. */
  readonly sweep: SweepCourse | null;
  readonly full: Course | null;
  readonly weather: HourlyWeather;
  readonly swath: SwathRequest;
  readonly p: DryingParameters;
  readonly air: AirTable;
  readonly passes: readonly Operation[];
  readonly s: FastSwath;
  done: number;
  nextPass: number;
  coveredFraction: number;
  dryMatterTHa: number;
  make: SwathMake;
  fast: FastMake;
}

/** A course of moisture alone at its cut, to be run on by `runOn`: see `moistureOver`. */
export function startMoisture(
  block: Float64Array,
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
  p: DryingParameters,
): CourseRun {
  const course = moistureOver(block, weather, hourOf(weather, cutUtcMs), cutUtcMs);
  return startOf(weather, swath, operations, p, { course, sweep: null, full: null });
}

/** Where a run stands, to be gone on from by another. */
export function stateOf({ s, done, nextPass, coveredFraction, dryMatterTHa, make }: CourseRun): RunState {
  return { s: twinOf(s), done, nextPass, coveredFraction, dryMatterTHa, make };
}

/** A run of moisture that parts from another: the same until `state`, and other passes after it. */
export function partedFrom(
  run: CourseRun,
  state: RunState,
  block: Float64Array,
  operations: readonly Operation[],
): CourseRun {
  const { weather, swath, p } = run;
  const { cutUtcMs, moistureWb, freeWaterMm } = run.course;
  const parted = resumeMoisture(block, weather, swath, cutUtcMs, operations, p, state);
  parted.course.moistureWb.set(moistureWb.subarray(0, state.done));
  parted.course.freeWaterMm.set(freeWaterMm.subarray(0, state.done));
  return parted;
}

/** A run of moisture that goes on from a state of its own cut; of the hours that are done the last alone is filled. */
export function resumeMoisture(
  block: Float64Array,
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[],
  p: DryingParameters,
  state: RunState,
): CourseRun {
  const course = moistureOver(block, weather, hourOf(weather, cutUtcMs), cutUtcMs);
  const { s, done, make } = state;
  if (done > 0) {
    course.moistureWb[done - 1] = wetBasis(meanDb(make, s.leafDb, s.stemDb));
    course.freeWaterMm[done - 1] = s.filmMm;
  }
  return {
    course,
    sweep: null,
    full: null,
    weather,
    swath,
    p,
    air: tableOf(weather, p),
    passes: passesOf(operations, cutUtcMs),
    s: twinOf(s),
    done,
    nextPass: state.nextPass,
    coveredFraction: state.coveredFraction,
    dryMatterTHa: state.dryMatterTHa,
    make,
    // What it reckons in is its own.
    fast: fastMake(make, p),
  };
}

function passesOf(operations: readonly Operation[], cutUtcMs: number): readonly Operation[] {
  return operations.filter((pass) => pass.atUtcMs >= cutUtcMs).sort((a, b) => a.atUtcMs - b.atUtcMs);
}

/** A course at its cut. */
export function startOf(
  weather: HourlyWeather,
  swath: SwathRequest,
  operations: readonly Operation[],
  p: DryingParameters,
  { course, sweep, full }: Pick<CourseRun, "course" | "sweep" | "full">,
): CourseRun {
  const crop = CROP_CATALOGUE[swath.crop];
  const { cutUtcMs } = course;
  const { coveredFraction, dryMatterTHa } = swath;
  const make = swathMake(swath, coveredGM2(dryMatterTHa, coveredFraction) / 1000, p);
  const { leafDb, stemDb } = splitMoistureDb(crop, swath.initialMoistureWb);
  const filmMm = freeWaterAtCut(weather, swath, cutUtcMs, make.dryMatterKgM2);
  const s = swathAt(filmMm, leafDb, stemDb, 0, 0, FIRST_GUESS_RH, 0, 0);
  s.mixedDb = meanDb(make, s.leafDb, s.stemDb);
  return {
    course,
    sweep,
    full,
    weather,
    swath,
    p,
    air: tableOf(weather, p),
    passes: passesOf(operations, cutUtcMs),
    s,
    done: 0,
    nextPass: 0,
    coveredFraction,
    dryMatterTHa,
    make,
    fast: fastMake(make, p),
  };
}

/** Runs a course on until `untilHour` of its hours are done, and fills their columns. */
export function runOn(run: CourseRun, untilHour: number, subSteps = 1): void {
  const { course, sweep, full, weather, swath, p, air, passes, s } = run;
  const crop = CROP_CATALOGUE[swath.crop];
  const first = hourOf(weather, course.cutUtcMs);
  const end = Math.min(course.count, untilHour);
  let { nextPass, coveredFraction, dryMatterTHa, make, fast } = run;

  for (let i = run.done; i < end; i++) {
    const hour = first + i;
    const hourEndMs = weather.startUtcMs + (hour + 1) * HOUR_MS;
    const hourRainMm = weather.rainMm[hour] as number;
    s.interceptedMm = 0;
    s.drainedMm = 0;
    s.dewMm = 0;
    s.vapourUptakeMm = 0;
    s.absorbedMm = 0;
    s.evaporationMm = 0;
    let operationMm = 0;
    let fromMs = i === 0 ? course.cutUtcMs : hourEndMs - HOUR_MS;
    const openH = (hourEndMs - fromMs) / HOUR_MS;
    while (fromMs < hourEndMs) {
      for (let pass = passes[nextPass]; pass && pass.atUtcMs <= fromMs; pass = passes[++nextPass]) {
        const tissueDb = meanDb(make, s.leafDb, s.stemDb);
        dryMatterTHa *= 1 - operationLoss(pass.kind, crop, wetBasis(tissueDb), dryMatterTHa);
        coveredFraction = coverAfter(pass, coveredFraction);
        const next = swathMake(swath, coveredGM2(dryMatterTHa, coveredFraction) / 1000, p);
        const filmMm = (s.filmMm * next.dryMatterKgM2) / make.dryMatterKgM2;
        operationMm += filmMm - s.filmMm + (next.dryMatterKgM2 - make.dryMatterKgM2) * tissueDb;
        s.filmMm = filmMm;
        s.mixedDb = tissueDb;
        make = next;
        fast = fastMake(make, p);
      }
      const passMs = passes[nextPass]?.atUtcMs ?? Number.POSITIVE_INFINITY;
      const untilMs = Math.min(passMs, hourEndMs);
      const spanH = (untilMs - fromMs) / HOUR_MS;
      const partH = spanH / subSteps;
      for (let part = 0; part < subSteps; part++) fastStep(s, fast, air, hour, hourRainMm * partH, partH);
      fromMs = untilMs;
    }
    const tissueDb = meanDb(make, s.leafDb, s.stemDb);
    if (tissueDb > s.mixedDb) s.mixedDb = tissueDb;
    course.moistureWb[i] = wetBasis(tissueDb);
    course.freeWaterMm[i] = s.filmMm;
    if (sweep === null) continue;
    sweep.leafMoistureWb[i] = wetBasis(s.leafDb);
    sweep.stemMoistureWb[i] = wetBasis(s.stemDb);
    const hayDb = air.hayRestDb[hour] as number;
    const stemDb = make.coarseStem ? (air.stalkRestDb[hour] as number) : hayDb;
    sweep.equilibriumWb[i] = wetBasis(meanDb(make, hayDb, stemDb));
    if (full === null) continue;
    full.dryMatterGM2[i] = make.dryMatterKgM2 * 1000;
    full.coveredFraction[i] = coveredFraction;
    full.rainMm[i] = hourRainMm * openH;
    full.interceptedMm[i] = s.interceptedMm;
    full.drainedMm[i] = s.drainedMm;
    full.dewMm[i] = s.dewMm;
    full.vapourUptakeMm[i] = s.vapourUptakeMm;
    full.absorbedMm[i] = s.absorbedMm;
    full.evaporationMm[i] = s.evaporationMm;
    full.operationMm[i] = operationMm;
  }
  run.done = Math.max(run.done, end);
  run.nextPass = nextPass;
  run.coveredFraction = coveredFraction;
  run.dryMatterTHa = dryMatterTHa;
  run.make = make;
  run.fast = fast;
}
