import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import type { AirTable } from "./air-table.ts";
import { airTable } from "./air-table.ts";
import type { DryingParameters } from "./coefficients.ts";
import { DRYING_PARAMETERS } from "./coefficients.ts";
import { CROP_CATALOGUE } from "./crops.ts";
import { fastStep } from "./fast-step.ts";
import type { FastMake, FastSwath } from "./fast-swath.ts";
import { fastMake } from "./fast-swath.ts";
import { freeWaterAtCut } from "./free-water.ts";
import { wetBasis } from "./moisture.ts";
import type { Operation } from "./operations.ts";
import { coverAfter, operationLoss } from "./operations.ts";
import type { SwathRequest } from "./request.ts";
import type { SwathMake } from "./swath-state.ts";
import { coveredGM2, FIRST_GUESS_RH, meanDb, splitMoistureDb, swathMake } from "./swath-state.ts";

export type { Operation } from "./operations.ts";

/** What a board reads of a cut, hour by hour from the hour that contains it; see CourseHours. */
export interface SweepCourse {
  readonly startUtcMs: number;
  readonly cutUtcMs: number;
  readonly count: number;
  readonly moistureWb: Float64Array;
  readonly leafMoistureWb: Float64Array;
  readonly stemMoistureWb: Float64Array;
  readonly equilibriumWb: Float64Array;
  readonly freeWaterMm: Float64Array;
}

/** The same with all that came and went: what a course shown by itself, and the water balance, read. */
export interface Course extends SweepCourse {
  readonly dryMatterGM2: Float64Array;
  readonly coveredFraction: Float64Array;
  readonly rainMm: Float64Array;
  readonly interceptedMm: Float64Array;
  readonly drainedMm: Float64Array;
  readonly dewMm: Float64Array;
  readonly vapourUptakeMm: Float64Array;
  readonly absorbedMm: Float64Array;
  readonly evaporationMm: Float64Array;
  readonly operationMm: Float64Array;
}

const SWEEP_COLUMNS = 5;
const COURSE_COLUMNS = 15;

/** Makes columns of zeros, all in one block: a board makes hundreds of courses. */
function columnsOf(count: number, columns: number): () => Float64Array {
  const columnBytes = count * Float64Array.BYTES_PER_ELEMENT;
  const block = new ArrayBuffer(columns * columnBytes);
  let taken = 0;
  return () => new Float64Array(block, taken++ * columnBytes, count);
}

function hourOf(weather: HourlyWeather, utcMs: number): number {
  return Math.floor((utcMs - weather.startUtcMs) / HOUR_MS);
}

function emptySweep(
  weather: HourlyWeather,
  first: number,
  cutUtcMs: number,
  columns: number,
): { readonly sweep: SweepCourse; readonly column: () => Float64Array } {
  if (!(first >= 0 && first < weather.count)) {
    throw new RangeError(
      `runCourse: cutUtcMs must lie within the weather's ${weather.count} hours, got hour ${first}`,
    );
  }
  const count = weather.count - first;
  const column = columnsOf(count, columns);
  const sweep = {
    startUtcMs: weather.startUtcMs + first * HOUR_MS,
    cutUtcMs,
    count,
    moistureWb: column(),
    leafMoistureWb: column(),
    stemMoistureWb: column(),
    equilibriumWb: column(),
    freeWaterMm: column(),
  };
  return { sweep, column };
}

/** A course of zeros from hour `first` of the weather to the weather's end. */
export function emptyCourse(weather: HourlyWeather, first: number, cutUtcMs: number): Course {
  const { sweep, column } = emptySweep(weather, first, cutUtcMs, COURSE_COLUMNS);
  return {
    ...sweep,
    dryMatterGM2: column(),
    coveredFraction: column(),
    rainMm: column(),
    interceptedMm: column(),
    drainedMm: column(),
    dewMm: column(),
    vapourUptakeMm: column(),
    absorbedMm: column(),
    evaporationMm: column(),
    operationMm: column(),
  };
}

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

/**
 * The course of one cut through the weather, to the weather's end, by the fast step.
 *
 * @param subSteps parts into which every hour is cut; more than 1 only to study convergence
 * @throws RangeError when the cut lies outside the weather
 */
export function runCourse(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
  p: DryingParameters = DRYING_PARAMETERS,
  subSteps = 1,
): Course {
  const course = emptyCourse(weather, hourOf(weather, cutUtcMs), cutUtcMs);
  runOn(startOf(weather, swath, operations, p, course, course), course.count, subSteps);
  return course;
}

/** The same course with only what a board reads: hundreds are made at once, and what is not kept need not be collected. */
export function runSweepCourse(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
  p: DryingParameters = DRYING_PARAMETERS,
): SweepCourse {
  const run = startSweep(weather, swath, cutUtcMs, operations, p);
  runOn(run, run.course.count);
  return run.course;
}

/** A course that is run as far as it is needed: hours from `done` on are still 0. */
export interface CourseRun {
  readonly course: SweepCourse;
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

/** A sweep's course at its cut, to be run on by `runOn`. */
export function startSweep(
  weather: HourlyWeather,
  swath: SwathRequest,
  cutUtcMs: number,
  operations: readonly Operation[] = [],
  p: DryingParameters = DRYING_PARAMETERS,
): CourseRun {
  const { sweep } = emptySweep(weather, hourOf(weather, cutUtcMs), cutUtcMs, SWEEP_COLUMNS);
  return startOf(weather, swath, operations, p, sweep, null);
}

function startOf(
  weather: HourlyWeather,
  swath: SwathRequest,
  operations: readonly Operation[],
  p: DryingParameters,
  course: SweepCourse,
  full: Course | null,
): CourseRun {
  const crop = CROP_CATALOGUE[swath.crop];
  const { cutUtcMs } = course;
  const { coveredFraction, dryMatterTHa } = swath;
  const make = swathMake(swath, coveredGM2(dryMatterTHa, coveredFraction) / 1000, p);
  const s: FastSwath = {
    filmMm: freeWaterAtCut(weather, swath, cutUtcMs, make.dryMatterKgM2),
    ...splitMoistureDb(crop, swath.initialMoistureWb),
    mixedDb: 0,
    riseK: 0,
    rhFrac: FIRST_GUESS_RH,
    leafTrendPerH: 0,
    stemTrendPerH: 0,
    interceptedMm: 0,
    drainedMm: 0,
    dewMm: 0,
    vapourUptakeMm: 0,
    absorbedMm: 0,
    evaporationMm: 0,
  };
  s.mixedDb = meanDb(make, s.leafDb, s.stemDb);
  return {
    course,
    full,
    weather,
    swath,
    p,
    air: tableOf(weather, p),
    passes: operations.filter((pass) => pass.atUtcMs >= cutUtcMs).sort((a, b) => a.atUtcMs - b.atUtcMs),
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
  const { course, full, weather, swath, p, air, passes, s } = run;
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
    course.leafMoistureWb[i] = wetBasis(s.leafDb);
    course.stemMoistureWb[i] = wetBasis(s.stemDb);
    const hayDb = air.hayRestDb[hour] as number;
    const stemDb = make.coarseStem ? (air.stalkRestDb[hour] as number) : hayDb;
    course.equilibriumWb[i] = wetBasis(meanDb(make, hayDb, stemDb));
    course.freeWaterMm[i] = s.filmMm;
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
