import { type Alone, mowingKey } from "../alone.ts";
import { coursesAt, type Grid, type GridField, type GridTask, middleSlot, waysOf } from "../grid.ts";
import { addTerm, type MilpBuilder, type Terms } from "./milp.ts";

/** The columns of the step model: for each work and pool of machines, 1 once it has started by a slot. */

/** Starts of one work with one pool of machines, ascending, each with its column. */
export interface Mode {
  readonly slots: number;
  readonly machines: readonly number[];
  /** Of a mowing the place of the course among those of its hour; 0 of any other work. */
  readonly way: number;
  readonly starts: readonly number[];
  readonly cols: readonly number[];
}

export interface TaskColumns {
  readonly modes: readonly Mode[];
  readonly fixed: GridTask["fixed"];
  /** Of a mowing that is held: for each course of its hour, 1 where that is chosen. Empty of any other work. */
  readonly chosen: readonly number[];
}

export function lastAtOrBefore(starts: readonly number[], slot: number): number {
  let lo = 0;
  let hi = starts.length;
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    if ((starts[middle] as number) <= slot) lo = middle + 1;
    else hi = middle;
  }
  return lo - 1;
}

/** Adds `sign` times "has started by `slot`" of all modes, each with its own slot. */
export function addStarted(
  terms: Terms,
  { modes }: TaskColumns,
  sign: number,
  slotOf: (mode: Mode) => number,
): void {
  for (const mode of modes) {
    const at = lastAtOrBefore(mode.starts, slotOf(mode));
    if (at >= 0) addTerm(terms, mode.cols[at] as number, sign);
  }
}

/**
 * Adds "is under way in one of the slots `from` to `to`", times what each mode takes of a pool; how much of it that may be
 * at most, 0 where it is never under way then.
 */
export function addUnderWay(
  terms: Terms,
  { modes }: TaskColumns,
  takes: (mode: Mode) => number,
  from: number,
  to: number,
): number {
  let most = 0;
  for (const mode of modes) {
    const taken = takes(mode);
    if (taken === 0) continue;
    const now = lastAtOrBefore(mode.starts, to);
    const over = lastAtOrBefore(mode.starts, from - mode.slots);
    if (now === over) continue;
    most = Math.max(most, taken);
    addTerm(terms, mode.cols[now] as number, taken);
    if (over >= 0) addTerm(terms, mode.cols[over] as number, -taken);
  }
  return most;
}

/** Machines of one kind that are equally fast on every field and take the same along: the model counts them, it does not tell them apart. */
export function machinePools(grid: Grid): readonly (readonly number[])[] {
  const pools = new Map<string, number[]>();
  grid.machines.forEach(({ op, along }, k) => {
    const speeds = grid.fields.map(({ tasks }) => tasks.map(({ slotsOf }) => slotsOf[k]).join(",")).join(";");
    const key = `${op}|${speeds}|${along?.join(",") ?? ""}`;
    pools.set(key, [...(pools.get(key) ?? []), k]);
  });
  return [...pools.values()];
}

/** The slots in which a work may start with these machines, each with its column and what starting there is worth. */
export function taskColumns(
  grid: Grid,
  field: GridField,
  index: number,
  { places, mowings }: Pick<Alone, "places" | "mowings">,
  builder: MilpBuilder,
): TaskColumns {
  const task = field.tasks[index] as GridTask;
  if (task.fixed !== null) {
    const chosen = index === 0 ? heldCourses(field, task.fixed, builder) : [];
    return { modes: [], fixed: task.fixed, chosen };
  }
  const modes: Mode[] = [];
  const reached = new Set((places[index] ?? []).map(({ start, end }) => `${start}-${end}`));
  const ways = Array.from({ length: index === 0 ? waysOf(field) : 1 }, (_, way) => way);
  const kinds = machinePools(grid).flatMap((machines) => ways.map((way) => ({ machines, way })));
  for (const { machines, way } of kinds) {
    const slots = task.slotsOf[machines[0] as number] as number;
    if (slots === 0) continue;
    const starts: number[] = [];
    for (let t = grid.nowSlot; t + slots <= grid.count; t++) {
      if (reached.has(`${t}-${t + slots}`) && mayStart(grid, field, index, t, slots, machines, way, mowings))
        starts.push(t);
    }
    const worth = starts.map((t) => startWorth(field, index, t, slots, way));
    // z[i] counts for every start from the i-th on: its gain is the step down to the next.
    const cols = starts.map((_, i) => builder.column(0, 1, true, (worth[i] ?? 0) - (worth[i + 1] ?? 0)));
    for (let i = 1; i < cols.length; i++) {
      const terms: Terms = new Map();
      addTerm(terms, cols[i] as number, 1);
      addTerm(terms, cols[i - 1] as number, -1);
      builder.row(0, Number.POSITIVE_INFINITY, terms);
    }
    if (starts.length > 0) modes.push({ slots, machines, way, starts, cols });
  }
  return { modes, fixed: null, chosen: [] };
}

/** A column for each course that a held mowing may lead to, where there are several. */
function heldCourses(
  field: GridField,
  held: NonNullable<GridTask["fixed"]>,
  builder: MilpBuilder,
): readonly number[] {
  const courses = coursesAt(field, middleSlot(held.start, held.end));
  if (courses.length === 1) return [];
  return courses.map((course) => {
    const gain = field.mowGain[course] as number;
    const may = Number.isFinite(gain) && opensAll(field, course);
    return builder.column(0, may ? 1 : 0, true, may ? field.worth * gain : 0);
  });
}

/** True where a course opens a window for every work that needs one. Fixed work is a promise: it stands in its window or not. */
function opensAll(field: GridField, course: number): boolean {
  return field.tasks.every(
    ({ ready, fixed }) => fixed !== null || ready === null || (ready[course] as number) >= 0,
  );
}

function mayStart(
  grid: Grid,
  field: GridField,
  index: number,
  t: number,
  slots: number,
  machines: readonly number[],
  way: number,
  mowings: Alone["mowings"],
): boolean {
  const task = field.tasks[index] as GridTask;
  const end = t + slots;
  if ((task.openUntil[t] as number) < end) return false;
  if (!machines.some((k) => (grid.machines[k]?.freeUntil[t] as number) >= end)) return false;
  if (!grid.people.some(({ freeUntil }) => (freeUntil[t] as number) >= end)) return false;
  if (index === 0) {
    const course = coursesAt(field, middleSlot(t, end))[way] as number;
    const leads = mowings.has(mowingKey({ start: t, end }, course));
    return leads && Number.isFinite(field.mowGain[course] as number) && opensAll(field, course);
  }
  const mow = field.tasks[0]?.fixed;
  if (mow != null && task.ready !== null && task.until !== null) {
    const { ready, until } = task;
    const isInside = (course: number) => {
      const opens = ready[course] as number;
      return opens >= 0 && t >= opens && end <= (until[course] as number);
    };
    if (!coursesAt(field, middleSlot(mow.start, mow.end)).some(isInside)) return false;
  }
  // Work that stands fixed before or after leaves no choice on that side.
  return field.tasks.every(({ fixed }, other) => {
    if (fixed === null || other === index) return true;
    return other < index ? t >= fixed.end : end <= fixed.start;
  });
}

/** What the objective gains by starting this work here. */
function startWorth(field: GridField, index: number, t: number, slots: number, way: number): number {
  const task = field.tasks[index] as GridTask;
  let worth = 0;
  if (index === 0) {
    const course = coursesAt(field, middleSlot(t, t + slots))[way] as number;
    worth += field.worth * (field.mowGain[course] as number);
  }
  if (index === field.gather) worth -= field.worth * (field.gatherCost[t] as number);
  if (index === field.tasks.length - 1) worth -= field.lateCost[t + slots] as number;
  if (task.before === t) worth += field.moveCost;
  return worth;
}

/** What the fixed work of a field gains once the field is served, but for a mowing that leaves several courses to choose from. */
export function fixedWorth(field: GridField): number {
  return field.tasks.reduce((sum, { fixed }, i) => {
    if (fixed === null || (i === 0 && waysOf(field) > 1)) return sum;
    return sum + startWorth(field, i, fixed.start, fixed.end - fixed.start, 0);
  }, 0);
}
