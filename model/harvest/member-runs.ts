import type { DryingParameters } from "../drying/coefficients.ts";
import type { MoistureCourse } from "../drying/course-columns.ts";
import { type CourseRun, partedFrom, runOn, startMoisture, stateOf } from "../drying/course-run.ts";
import type { Operation } from "../drying/operations.ts";
import type { SwathRequest } from "../drying/request.ts";
import type { RunState } from "../drying/run-state.ts";
import type { Uncertainty } from "../odds/uncertainty.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";
import { type Ground, trackOf } from "./drying-store.ts";
import type { Track } from "./spans.ts";

/** One draw of a cut before it dries, and a block for its columns. */
export interface MemberStart {
  readonly weather: HourlyWeather;
  readonly ground: Ground;
  readonly swath: SwathRequest;
  readonly p: DryingParameters;
  readonly block: Float64Array;
}

/** One cut with its passes in a member's weather, run on as routes ask for more of it. */
export interface MemberRun {
  readonly run: CourseRun;
  readonly swath: SwathRequest;
  readonly weather: HourlyWeather;
  readonly ground: Ground;
  readonly whole: Track;
  /** Hours at which other passes of the same cut part from these, and how the run stood there. */
  readonly partsAt: readonly number[];
  readonly states: RunState[];
}

type Passes = readonly Operation[];
type Rate = Pick<Uncertainty, "rateLnMean" | "rateLnSd">;

/** The runs of one option: routes whose passes are the same read the same courses. */
export interface OptionRuns {
  readonly all: readonly Passes[];
  readonly known: Map<string, { readonly passes: Passes; readonly rate: Rate; readonly runs: MemberRun[] }>;
}

/** @param all the passes of each of its routes */
export function optionRuns(all: readonly Passes[]): OptionRuns {
  return { all, known: new Map() };
}

function keyOf(passes: Passes): string {
  return passes
    .map(({ kind, atUtcMs, coveredFraction }) => `${kind}@${atUtcMs}=${coveredFraction}`)
    .join(";");
}

/** Runs already there for these passes. */
export function knownRuns(option: OptionRuns, passes: Passes): readonly MemberRun[] | null {
  return option.known.get(keyOf(passes))?.runs ?? null;
}

/** Whole hours of a course from `startUtcMs` before the first pass in which two plans differ; null where none does. */
export function partHour(a: Passes, b: Passes, startUtcMs: number): number | null {
  for (let k = 0; k < Math.max(a.length, b.length); k++) {
    const [one, other] = [a[k], b[k]];
    if (one && other && keyOf([one]) === keyOf([other])) continue;
    const atMs = Math.min(
      one?.atUtcMs ?? Number.POSITIVE_INFINITY,
      other?.atUtcMs ?? Number.POSITIVE_INFINITY,
    );
    return Math.max(0, Math.floor((atMs - startUtcMs) / HOUR_MS));
  }
  return null;
}

/** How a run stood at an hour, or earlier where it has not come so far. */
function stateAt({ run, states }: MemberRun, hour: number): RunState | null {
  if (run.done <= hour) return stateOf(run);
  return states.find(({ done }) => done === hour) ?? null;
}

/**
 * The runs of all draws with these passes. Where the option has others that dry at the same rates, they go on from where
 * the passes part: hours that are the same are run once.
 *
 * @param cut its moment, and the start of the hour that contains it
 */
export function newRuns(
  option: OptionRuns,
  passes: Passes,
  rate: Rate,
  { cutUtcMs, startUtcMs }: Pick<MoistureCourse, "cutUtcMs" | "startUtcMs">,
  count: number,
  start: (i: number) => MemberStart,
): readonly MemberRun[] {
  const partsAt = [...new Set(option.all.map((other) => partHour(passes, other, startUtcMs)))]
    .filter((hour) => hour !== null)
    .sort((a, b) => a - b);
  const alike = [...option.known.values()].flatMap((other) => {
    if (other.rate.rateLnMean !== rate.rateLnMean || other.rate.rateLnSd !== rate.rateLnSd) return [];
    const hour = partHour(passes, other.passes, startUtcMs);
    return hour === null ? [] : [{ runs: other.runs, hour }];
  });
  const runs = Array.from({ length: count }, (_, i): MemberRun => {
    const { weather, ground, swath, p, block } = start(i);
    let run: CourseRun | null = null;
    for (const other of alike) {
      const one = other.runs[i];
      const state = one ? stateAt(one, other.hour) : null;
      if (one && state && state.done > (run?.done ?? 0)) run = partedFrom(one.run, state, block, passes);
    }
    run ??= startMoisture(block, weather, swath, cutUtcMs, passes, p);
    const first = Math.round((run.course.startUtcMs - weather.startUtcMs) / HOUR_MS);
    return {
      run,
      swath,
      weather,
      ground,
      whole: trackOf(run.course, swath, weather.rainMm.subarray(first), ground.soilFit.subarray(first)),
      partsAt,
      states: [],
    };
  });
  option.known.set(keyOf(passes), { passes, rate, runs });
  return runs;
}

/** Runs a member's course on, and keeps how it stood where other passes part from it. */
export function runMember({ run, partsAt, states }: MemberRun, untilHour: number): void {
  for (const hour of partsAt) {
    if (run.done > hour || hour >= untilHour) continue;
    runOn(run, hour);
    states.push(stateOf(run));
  }
  runOn(run, untilHour);
}

/** Blocks of numbers that are used again for every option: thousands of short courses need not be collected. */
export interface BlockStore {
  take(length: number): Float64Array;
  /** All that were taken may be overwritten from now on. */
  free(): void;
}

export function blockStore(): BlockStore {
  const blocks: Float64Array[] = [];
  let taken = 0;
  return {
    take(length) {
      const at = taken++;
      const known = blocks[at];
      if (known && known.length >= length) return known;
      const made = new Float64Array(length);
      blocks[at] = made;
      return made;
    },
    free() {
      taken = 0;
    },
  };
}
