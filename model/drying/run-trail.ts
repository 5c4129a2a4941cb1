import { type CourseRun, runOn } from "./course-run.ts";
import { type RunState, swathAt } from "./run-state.ts";

/** Numbers of a swath between two hours. */
const SWATH_NUMBERS = 8;
/**
 * A state is kept every so many hours of a run. Whoever parts from it runs half as many again that were run before: few of a
 * week, while the states of thousands of runs stay at a few megabytes.
 */
const KEPT_EVERY_H = 8;

type Working = Omit<RunState, "s" | "done">;

/** How a run stood along its way, as plain numbers: others of its cut part from it hours later. */
export interface RunTrail {
  /** One after the other, the swath after each KEPT_EVERY_H hours. */
  readonly swaths: Float64Array;
  /** States that are kept. */
  readonly count: number;
  /** What passes made of the swath, from which state on. */
  readonly workings: readonly { readonly from: number; readonly working: Working }[];
}

/** Runs a course on from its cut until `untilHour` of its hours are done, as `runOn`, and keeps how it stood on the way. */
export function runAlong(run: CourseRun, untilHour: number): RunTrail {
  const end = Math.min(run.course.count, untilHour);
  const count = Math.max(0, Math.floor((end - 1) / KEPT_EVERY_H));
  const swaths = new Float64Array(count * SWATH_NUMBERS);
  const workings: { from: number; working: Working }[] = [];
  for (let state = 0; state < count; state++) {
    runOn(run, (state + 1) * KEPT_EVERY_H);
    const { s, nextPass, coveredFraction, dryMatterTHa, make } = run;
    const at = state * SWATH_NUMBERS;
    swaths[at] = s.filmMm;
    swaths[at + 1] = s.leafDb;
    swaths[at + 2] = s.stemDb;
    swaths[at + 3] = s.mixedDb;
    swaths[at + 4] = s.riseK;
    swaths[at + 5] = s.rhFrac;
    swaths[at + 6] = s.leafTrendPerH;
    swaths[at + 7] = s.stemTrendPerH;
    if (workings.at(-1)?.working.nextPass !== nextPass) {
      workings.push({ from: state, working: { nextPass, coveredFraction, dryMatterTHa, make } });
    }
  }
  runOn(run, end);
  return { swaths, count, workings };
}

/** The last state that was kept at an hour of the run or before it; null where there is none. */
export function stateBefore({ swaths, count, workings }: RunTrail, hour: number): RunState | null {
  const state = Math.min(count, Math.floor(hour / KEPT_EVERY_H)) - 1;
  const working = workings.findLast(({ from }) => from <= state)?.working;
  if (state < 0 || working === undefined) return null;
  const { nextPass, coveredFraction, dryMatterTHa, make } = working;
  const at = (number: number) => swaths[state * SWATH_NUMBERS + number] as number;
  return {
    s: swathAt(at(0), at(1), at(2), at(3), at(4), at(5), at(6), at(7)),
    done: (state + 1) * KEPT_EVERY_H,
    nextPass,
    coveredFraction,
    dryMatterTHa,
    make,
  };
}
