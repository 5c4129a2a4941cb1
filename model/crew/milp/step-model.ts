import { type Alone, fieldsAlone } from "../alone.ts";
import { courseOf, type Grid, type GridField, type GridJob, mowingOf } from "../grid.ts";
import { jobsOfField } from "../value.ts";
import { capacityRows, poolsOf } from "./capacity-rows.ts";
import { lastAtOrBefore, type TaskColumns, taskColumns } from "./columns.ts";
import { fieldRows } from "./field-rows.ts";
import { addTerm, type Milp, MilpBuilder, type Terms } from "./milp.ts";
import { type Presence, placeRows } from "./place-rows.ts";

/**
 * The time-indexed model with "step" binaries: z = 1 once a work has started by a slot. Machines of the same kind and
 * rate are one pool, people are one crew, and a drive counts as the shortest between two places, so that its optimum is a
 * bound on every plan that can be carried out. After Pritsker et al. 1969 and Christofides et al. 1987, from memory.
 */
export interface StepModel {
  readonly milp: Milp;
  /** The point of a plan: a start for the solver. */
  pointOf(jobs: readonly GridJob[]): Float64Array;
  /** The starts that a point holds, by field; null for a field left standing. Machines are pools: see `Pool`. */
  startsOf(point: ArrayLike<number>): readonly (readonly PooledStart[] | null)[];
}

export interface PooledStart {
  readonly task: number;
  /** The machines of the pool that it is counted in. */
  readonly machines: readonly number[];
  readonly start: number;
  readonly end: number;
}

/** Starts that one plan must not hold together: what could not be assigned to machines and people. */
export type Cut = readonly {
  readonly field: number;
  readonly task: number;
  readonly start: number;
  readonly machines: readonly number[];
}[];

export function stepModel(grid: Grid, cuts: readonly Cut[] = []): StepModel {
  const builder = new MilpBuilder();
  const served: number[] = [];
  const columns: TaskColumns[][] = [];
  const alone = fieldsAlone(grid);
  grid.fields.forEach((field, f) => {
    served.push(builder.column(0, 1, true));
    columns.push(field.tasks.map((_, task) => taskColumns(grid, field, task, alone[f] as Alone, builder)));
    fieldRows(grid, field, columns[f] as TaskColumns[], served[f] as number, builder);
  });
  const pools = poolsOf(grid, columns);
  capacityRows(grid, pools, builder);
  const presences = placeRows(grid, pools, builder);
  for (const cut of cuts) {
    const terms: Terms = new Map();
    for (const { field, task, start, machines } of cut)
      addPulse(terms, columns[field]?.[task], start, machines);
    builder.row(Number.NEGATIVE_INFINITY, cut.length - 1, terms);
  }
  const milp = builder.build();
  return {
    milp,
    pointOf: (jobs) => pointOf(grid, columns, served, presences, milp, jobs),
    startsOf: (point) =>
      grid.fields.map((_, f) => startsOfField(columns[f] ?? [], served[f] as number, point)),
  };
}

function addPulse(
  terms: Terms,
  task: TaskColumns | undefined,
  start: number,
  machines: readonly number[],
): void {
  for (const mode of task?.modes ?? []) {
    const at = lastAtOrBefore(mode.starts, start);
    if (at < 0 || mode.starts[at] !== start || mode.machines[0] !== machines[0]) continue;
    addTerm(terms, mode.cols[at] as number, 1);
    if (at > 0) addTerm(terms, mode.cols[at - 1] as number, -1);
  }
}

function pointOf(
  grid: Grid,
  columns: readonly TaskColumns[][],
  served: readonly number[],
  presences: readonly Presence[],
  milp: Milp,
  jobs: readonly GridJob[],
): Float64Array {
  const point = new Float64Array(milp.numCols);
  grid.fields.forEach((field, f) => {
    const own = jobsOfField(field, f, jobs);
    if (own === null) return;
    point[served[f] as number] = 1;
    const way = wayOf(field, own);
    const chosen = columns[f]?.[0]?.chosen[way];
    if (chosen !== undefined) point[chosen] = 1;
    own.forEach(({ start, machine }, task) => {
      for (const mode of columns[f]?.[task]?.modes ?? []) {
        if (!mode.machines.includes(machine) || (task === 0 && mode.way !== way)) continue;
        mode.starts.forEach((t, i) => {
          if (t >= start) point[mode.cols[i] as number] = 1;
        });
      }
    });
  });
  for (const { col, least } of presences) {
    for (const { terms, held } of least) {
      let sum = held;
      for (const [of, value] of terms) sum += value * (point[of] as number);
      point[col] = Math.max(point[col] as number, sum);
    }
  }
  return point;
}

/** The place of the course of these works among those of their mowing hour. */
function wayOf(field: GridField, own: readonly GridJob[]): number {
  const course = courseOf(field, own);
  return Math.round((course - mowingOf(field, course)) / Math.max(1, field.gatherCost.length));
}

function startsOfField(
  tasks: readonly TaskColumns[],
  served: number,
  point: ArrayLike<number>,
): readonly PooledStart[] | null {
  if ((point[served] as number) < 0.5) return null;
  return tasks.map(({ modes, fixed }, task) => {
    if (fixed !== null) return { task, machines: [fixed.machine], start: fixed.start, end: fixed.end };
    for (const { starts, cols, slots, machines } of modes) {
      const at = cols.findIndex((col) => (point[col] as number) > 0.5);
      const start = starts[at];
      if (at >= 0 && start !== undefined) return { task, machines, start, end: start + slots };
    }
    throw new RangeError("stepModel: a served field must have every work started");
  });
}
