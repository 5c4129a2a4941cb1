import { seededRandom, streamSeed } from "../odds/random.ts";
import { assignStarts } from "./assign.ts";
import { poolLoadBound } from "./bound.ts";
import type { Grid, GridJob } from "./grid.ts";
import { type Found, searchPlan } from "./heuristic/improve.ts";
import { promisesKept } from "./heuristic/promises.ts";
import { fixedJobs } from "./heuristic/schedule.ts";
import type { MilpEngine } from "./milp/engine.ts";
import type { Milp } from "./milp/milp.ts";
import { type MilpOptions, solveMilp } from "./milp/solve.ts";
import { solveInStages } from "./milp/stages.ts";
import { type Cut, type StepModel, stepModel } from "./milp/step-model.ts";
import { jobsOfField, placesOf, planValue } from "./value.ts";

/** What a solver is asked: in a thread or a browser's worker, so that it can be stopped from outside. */
export interface SolverQuestion {
  readonly milp: Milp;
  readonly start: Float64Array;
  readonly timeLimitS: number;
  readonly relGap: number;
  /** Counted work, so that the same question ends at the same place: nodes of the solver's tree. */
  readonly mostNodes: number;
  readonly seed: number;
}

export interface SolverAnswer {
  readonly point: Float64Array | null;
  readonly bound: number;
  readonly closed: boolean;
  /** True where the clock ended it: another run may end elsewhere. */
  readonly byClock: boolean;
}

/** What a solver's thread tells while it works: a better plan, a lower bound, the end. */
export type SolverTell =
  | { readonly kind: "plan"; readonly point: Float64Array }
  | { readonly kind: "bound"; readonly bound: number }
  | ({ readonly kind: "done" } & SolverAnswer);

/** One solve to its end, telling at once what is found and proved: the engine is synchronous. */
export function tellSolve(
  engine: MilpEngine,
  { milp, ...options }: SolverQuestion,
  tell: (told: SolverTell) => void,
  /** Time since the question came, s. */
  elapsedS: () => number,
): void {
  const asked: MilpOptions = {
    ...options,
    onPlan: (found) => tell({ kind: "plan", point: found }),
    onBound: (proved) => tell({ kind: "bound", bound: proved }),
  };
  const isLarge = milp.numCols > SMALL_COLUMNS && options.relGap > 0;
  const { point, bound, closed, byClock } = isLarge
    ? solveInStages(engine, milp, asked, elapsedS)
    : solveMilp(engine, milp, asked);
  tell({ kind: "done", point, bound, closed, byClock });
}

export type Solver = (question: SolverQuestion) => Promise<SolverAnswer>;

/** How the plan was found; by the clock = the time limit cut it off, and another run may find another plan. */
export const PLAN_METHODS = [
  "heuristic",
  "step-milp",
  "heuristic-cut-by-clock",
  "step-milp-cut-by-clock",
] as const;
export type PlanMethod = (typeof PLAN_METHODS)[number];
/** Which proof the bound rests on: the step model's, or the weak pool-load bound. */
export type BoundKind = "step-milp" | "pool-load";

export interface GridPlan {
  readonly jobs: readonly GridJob[];
  readonly value: number;
  readonly bound: number;
  readonly boundKind: BoundKind;
  readonly gap: number;
  readonly method: PlanMethod;
}

export interface SolveOptions {
  /** Of the whole answer, s. */
  readonly timeLimitS: number;
  readonly seed: number;
  /** Null = the heuristic alone. */
  readonly solver: Solver | null;
  /** Time since the question came, s. */
  readonly elapsedS: () => number;
  /** What comes after the search takes so many times as long as the first search on the same machine; absent = 0. */
  readonly afterTimes?: number | undefined;
  readonly stop?: (() => boolean) | undefined;
  readonly onPlan?: ((plan: GridPlan) => void) | undefined;
  /** The plan that stands already: tried as a beginning. */
  readonly startJobs?: readonly GridJob[] | undefined;
}

/** Places that the first search tries: some 0.2 s of an idle machine. */
const FIRST_PLACES = 2_000_000;
/** The clock is its last resort, on a machine that is busy or slow, s. */
const FIRST_ANSWER_S = 0.7;
/** A bound within this share of the plan ends the search. */
const LARGE_GAP = 0.005;
/** A model of no more columns is solved to the end, in one round. */
const SMALL_COLUMNS = 1500;
/**
 * The longer search: places for each second of the limit, without a proof behind it and at most for each field, and the share
 * of the limit that the clock leaves it.
 */
const LONG_PLACES_A_SECOND = 3_000_000;
const ALONE_PLACES_A_SECOND = 9_000_000;
const LONG_PLACES_A_FIELD = 2_700_000;
const LONG_ROUNDS_A_FIELD = 2500;
const LONG_SEARCHES = 2;
const LONG_SEARCH_SHARE = 0.5;
/** Nodes of the solver's tree for each second of the limit. */
const NODES_A_SECOND = 50;
const MOST_CUT_ROUNDS = 40;
/** The relaxation alone takes about so long, s a column; measured on one core of a server. */
const SOLVER_S_A_COLUMN = 0.0005;
const LEAST_SOLVER_S = 1;
/** Columns past which the step model has not closed within a minute: its root alone takes longer than people wait. */
const MOST_COLUMNS = 14_000;

/** How far a plan may be from the best one, as a share of the bound. */
export function gapOf(value: number, bound: number): number {
  const above = Math.max(0, bound - value);
  return above <= 1e-9 * Math.max(1, Math.abs(bound)) ? 0 : above / Math.max(Math.abs(bound), 1e-9);
}

/** Rounds after which a small task gains nothing more. */
function roundsFor(grid: Grid): number {
  return Math.max(150, Math.min(600, Math.round(12_000 / Math.max(1, grid.fields.length))));
}

/** Fixed work of fields left standing stays in the plan: it is done, or promised. */
function withFixed(grid: Grid, jobs: readonly GridJob[]): GridJob[] {
  const kept = grid.fields.flatMap((field, f) => jobsOfField(field, f, jobs) ?? []);
  const missing = fixedJobs(grid).filter(
    (one) => !kept.some((job) => job.field === one.field && job.task === one.task),
  );
  return [...kept, ...missing].sort((a, b) => a.start - b.start || a.field - b.field || a.task - b.task);
}

/** The plan of a grid: heuristic first, then the step model, with the bound that was proved and the gap to it. */
export async function solveGrid(grid: Grid, options: SolveOptions): Promise<GridPlan> {
  const { elapsedS, seed } = options;
  const stopped = () => options.stop?.() === true;
  const beganS = elapsedS();
  const rounds = roundsFor(grid);
  const most = poolLoadBound(grid);
  const first = searchPlan(grid, {
    rounds,
    enough: most,
    places: FIRST_PLACES,
    random: seededRandom(streamSeed(seed, 0)),
    stop: () => stopped() || elapsedS() - beganS > FIRST_ANSWER_S,
    start: placesOf(grid, options.startJobs),
  });
  let found: Found = first;
  let byClock = first.stopped && !stopped();
  const afterS = (options.afterTimes ?? 0) * (elapsedS() - beganS);
  let bound = Math.max(found.value, most);
  let boundKind: BoundKind = "pool-load";
  let method: "heuristic" | "step-milp" = "heuristic";
  const plan = (): GridPlan => ({
    jobs: withFixed(grid, found.jobs),
    value: found.value,
    bound,
    boundKind,
    gap: gapOf(found.value, bound),
    // A closed proof is no longer the clock's: no run finds more.
    method: byClock && gapOf(found.value, bound) > 0 ? `${method}-cut-by-clock` : method,
  });
  options.onPlan?.(plan());
  const { solver, timeLimitS } = options;
  const leftS = () => timeLimitS - afterS - elapsedS();
  const isAsked = solver !== null && timeLimitS >= LEAST_SOLVER_S && plan().gap > 0;
  const whole = isAsked ? stepModel(grid) : null;
  const columns = whole?.milp.numCols ?? Number.POSITIVE_INFINITY;
  const isSoonProved = columns <= SMALL_COLUMNS;
  // Where the limit is too short for a proof the search has all of it.
  const mayProve = columns <= MOST_COLUMNS && columns * SOLVER_S_A_COLUMN <= timeLimitS;
  if (plan().gap > LARGE_GAP && timeLimitS > 0 && !isSoonProved) {
    // With the first plan out, a longer search is cheap where the step model is not, and gives it a better start: in turn
    // from nothing, and from the best there is, since either alone stays in the valley that it began in.
    const share = mayProve ? LONG_SEARCH_SHARE : 1;
    const untilS = elapsedS() + share * Math.max(0, leftS());
    const aSecond = mayProve ? LONG_PLACES_A_SECOND : ALONE_PLACES_A_SECOND;
    const inAll = Math.min(LONG_PLACES_A_FIELD * grid.fields.length, aSecond * timeLimitS);
    const places = inAll / LONG_SEARCHES;
    for (let part = 0; part < LONG_SEARCHES && !byClock && !stopped(); part++) {
      const longer = searchPlan(grid, {
        rounds: LONG_ROUNDS_A_FIELD * grid.fields.length,
        places,
        enough: bound,
        random: seededRandom(streamSeed(seed, 1000 + part)),
        stop: () => stopped() || elapsedS() > untilS,
        start: part % 2 === 0 ? undefined : placesOf(grid, found.jobs),
      });
      byClock ||= longer.stopped && !stopped();
      if (longer.value > found.value + 1e-9) {
        found = longer;
        bound = Math.max(bound, found.value);
        options.onPlan?.(plan());
      }
    }
  }
  const cuts: Cut[] = [];
  for (let round = 0; solver !== null && whole !== null && mayProve && round < MOST_CUT_ROUNDS; round++) {
    if (stopped() || gapOf(found.value, bound) === 0) break;
    const model = round === 0 ? whole : stepModel(grid, cuts);
    const relGap = model.milp.numCols <= SMALL_COLUMNS ? 0 : LARGE_GAP;
    if (gapOf(found.value, bound) <= relGap) break;
    if (leftS() < LEAST_SOLVER_S) {
      byClock = true;
      break;
    }
    const answer = await solver({
      milp: model.milp,
      start: model.pointOf(found.jobs),
      timeLimitS: leftS(),
      relGap,
      mostNodes: Math.ceil(NODES_A_SECOND * timeLimitS),
      seed,
    });
    byClock ||= answer.byClock && !stopped();
    if (answer.bound < bound) {
      bound = Math.max(found.value, answer.bound);
      boundKind = "step-milp";
    }
    if (answer.point === null) break;
    const better = carriedOut(grid, model, answer.point, found, seed, cuts);
    if (better.found !== null) {
      found = better.found;
      method = "step-milp";
      bound = Math.max(bound, found.value);
    } else if (answer.closed && boundKind === "step-milp") method = "step-milp";
    options.onPlan?.(plan());
    if (!better.cut || !answer.closed || gapOf(found.value, bound) <= relGap) break;
  }
  return plan();
}

/** The solver's starts with machines and people; where they cannot all be had, the nearest plan that can, and a cut. */
function carriedOut(
  grid: Grid,
  model: StepModel,
  point: Float64Array,
  found: Found,
  seed: number,
  cuts: Cut[],
): { readonly found: Found | null; readonly cut: boolean } {
  const starts = model.startsOf(point);
  const assigned = assignStarts(grid, starts);
  if (assigned.ok) {
    const jobs = promisesKept(grid, assigned.jobs);
    const value = planValue(grid, jobs);
    return { found: value > found.value + 1e-9 ? { jobs, value, stopped: false } : null, cut: false };
  }
  cuts.push(assigned.conflict);
  // Keep as many of the solver's fields as can be served as it says, and let the search place the others.
  let kept = starts;
  for (const { field } of assigned.conflict) {
    kept = kept.map((own, f) => (f === field ? null : own));
    const again = assignStarts(grid, kept);
    if (!again.ok) continue;
    const tried = searchPlan(grid, {
      rounds: Math.round(roundsFor(grid) / 4),
      random: seededRandom(streamSeed(seed, 1 + cuts.length)),
      stop: () => false,
      start: placesOf(grid, again.jobs),
    });
    return { found: tried.value > found.value + 1e-9 ? tried : null, cut: assigned.conflict.length > 0 };
  }
  return { found: null, cut: assigned.conflict.length > 0 };
}
