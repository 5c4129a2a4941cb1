import { type Grid, type GridField, type GridJob, type GridTask, leastDrive, middleSlot } from "../grid.ts";
import { jobsOfField } from "../value.ts";
import { addTerm, type Milp, MilpBuilder, type Terms } from "./milp.ts";

/**
 * The time-indexed model with "step" binaries: z = 1 once a work has started by a slot. Machines of the same kind and
 * rate are one pool, people are one crew, and a drive counts as the shortest from the field, so that its optimum is a
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

/** Starts of one work with one pool of machines, ascending, each with its column. */
interface Mode {
  readonly slots: number;
  readonly machines: readonly number[];
  readonly starts: readonly number[];
  readonly cols: readonly number[];
}

interface TaskColumns {
  readonly modes: readonly Mode[];
  readonly fixed: GridTask["fixed"];
}

/** Starts that one plan must not hold together: what could not be assigned to machines and people. */
export type Cut = readonly {
  readonly field: number;
  readonly task: number;
  readonly start: number;
  readonly machines: readonly number[];
}[];

function lastAtOrBefore(starts: readonly number[], slot: number): number {
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
function addStarted(
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

export function stepModel(grid: Grid, cuts: readonly Cut[] = []): StepModel {
  const builder = new MilpBuilder();
  const served: number[] = [];
  const columns: TaskColumns[][] = [];
  grid.fields.forEach((field, f) => {
    served.push(builder.column(0, 1, true));
    columns.push(field.tasks.map((_, task) => taskColumns(grid, field, task, builder)));
    fieldRows(grid, field, columns[f] as TaskColumns[], served[f] as number, builder);
  });
  capacityRows(grid, columns, builder);
  for (const cut of cuts) {
    const terms: Terms = new Map();
    for (const { field, task, start, machines } of cut)
      addPulse(terms, columns[field]?.[task], start, machines);
    builder.row(Number.NEGATIVE_INFINITY, cut.length - 1, terms);
  }
  const milp = builder.build();
  return {
    milp,
    pointOf: (jobs) => pointOf(grid, columns, served, milp, jobs),
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

/** Machines of one kind that are equally fast on every field: the model counts them, it does not tell them apart. */
function machinePools(grid: Grid): readonly (readonly number[])[] {
  const pools = new Map<string, number[]>();
  grid.machines.forEach(({ op }, k) => {
    const speeds = grid.fields.map(({ tasks }) => tasks.map(({ slotsOf }) => slotsOf[k]).join(",")).join(";");
    const key = `${op}|${speeds}`;
    pools.set(key, [...(pools.get(key) ?? []), k]);
  });
  return [...pools.values()];
}

/** The slots in which a work may start with these machines, each with its column and what starting there is worth. */
function taskColumns(grid: Grid, field: GridField, index: number, builder: MilpBuilder): TaskColumns {
  const task = field.tasks[index] as GridTask;
  if (task.fixed !== null) return { modes: [], fixed: task.fixed };
  const modes: Mode[] = [];
  for (const machines of machinePools(grid)) {
    const slots = task.slotsOf[machines[0] as number] as number;
    if (slots === 0) continue;
    const starts: number[] = [];
    for (let t = grid.nowSlot; t + slots <= grid.count; t++) {
      if (mayStart(grid, field, index, t, slots, machines)) starts.push(t);
    }
    const worth = starts.map((t) => startWorth(field, index, t, slots));
    // z[i] counts for every start from the i-th on: its gain is the step down to the next.
    const cols = starts.map((_, i) => builder.column(0, 1, true, (worth[i] ?? 0) - (worth[i + 1] ?? 0)));
    for (let i = 1; i < cols.length; i++) {
      const terms: Terms = new Map();
      addTerm(terms, cols[i] as number, 1);
      addTerm(terms, cols[i - 1] as number, -1);
      builder.row(0, Number.POSITIVE_INFINITY, terms);
    }
    if (starts.length > 0) modes.push({ slots, machines, starts, cols });
  }
  return { modes, fixed: null };
}

function mayStart(
  grid: Grid,
  field: GridField,
  index: number,
  t: number,
  slots: number,
  machines: readonly number[],
): boolean {
  const task = field.tasks[index] as GridTask;
  const end = t + slots;
  if ((task.openUntil[t] as number) < end) return false;
  if (!machines.some((k) => (grid.machines[k]?.freeUntil[t] as number) >= end)) return false;
  if (!grid.people.some(({ freeUntil }) => (freeUntil[t] as number) >= end)) return false;
  if (index === 0) {
    const q = middleSlot(t, end);
    if (!Number.isFinite(field.mowGain[q] as number)) return false;
    // Fixed work is a promise: it stands in its window or not, as the rules have it.
    return field.tasks.every(
      ({ ready, fixed }) => fixed !== null || ready === null || (ready[q] as number) >= 0,
    );
  }
  const mow = field.tasks[0]?.fixed;
  if (mow != null && task.ready !== null && task.until !== null) {
    const q = middleSlot(mow.start, mow.end);
    const opens = task.ready[q] as number;
    if (opens < 0 || t < opens || end > (task.until[q] as number)) return false;
  }
  // Work that stands fixed before or after leaves no choice on that side.
  return field.tasks.every(({ fixed }, other) => {
    if (fixed === null || other === index) return true;
    return other < index ? t >= fixed.end : end <= fixed.start;
  });
}

/** What the objective gains by starting this work here. */
function startWorth(field: GridField, index: number, t: number, slots: number): number {
  const task = field.tasks[index] as GridTask;
  let worth = 0;
  if (index === 0) worth += field.worth * (field.mowGain[middleSlot(t, t + slots)] as number);
  if (index === field.gather) worth -= field.worth * (field.gatherCost[t] as number);
  if (index === field.tasks.length - 1) worth -= field.lateCost[t + slots] as number;
  if (task.before === t) worth += field.moveCost;
  return worth;
}

/** What the fixed work of a field gains once the field is served. */
function fixedWorth(field: GridField): number {
  return field.tasks.reduce(
    (sum, { fixed }, i) =>
      fixed === null ? sum : sum + startWorth(field, i, fixed.start, fixed.end - fixed.start),
    0,
  );
}

function fieldRows(
  grid: Grid,
  field: GridField,
  tasks: readonly TaskColumns[],
  served: number,
  builder: MilpBuilder,
): void {
  builder.offset -=
    field.moveCost * field.tasks.filter((task) => task.before !== null && task.fixed === null).length;
  builder.gain[served] = fixedWorth(field);
  const end = () => grid.count;
  tasks.forEach((columns, i) => {
    const task = field.tasks[i] as GridTask;
    if (columns.fixed === null) {
      // All or nothing: each work is done if and only if the field is served.
      const terms: Terms = new Map();
      addStarted(terms, columns, 1, end);
      addTerm(terms, served, -1);
      builder.row(0, 0, terms);
    } else if (i === 0 && !canFollowFixed(field)) {
      builder.row(0, 0, new Map([[served, 1]]));
    }
    if (i === 0 || columns.fixed !== null) return;
    sequenceRows(columns, tasks[i - 1] as TaskColumns, task.lagSlots, builder);
    if (task.ready !== null && task.until !== null && tasks[0]?.fixed === null) {
      windowRows(columns, tasks[0], task.ready, task.until, builder);
    }
  });
}

/** False where mowing is done and a later work has no window, or its fixed work stands in the wrong order. */
function canFollowFixed(field: GridField): boolean {
  const mow = field.tasks[0]?.fixed;
  if (mow == null) return true;
  const q = middleSlot(mow.start, mow.end);
  if (!Number.isFinite(field.mowGain[q] as number)) return false;
  return field.tasks.every(
    ({ ready, fixed }) => fixed !== null || ready === null || (ready[q] as number) >= 0,
  );
}

/** Every start of all modes, ascending, each once. */
function allStarts({ modes }: TaskColumns): number[] {
  return [...new Set(modes.flatMap(({ starts }) => starts))].sort((a, b) => a - b);
}

/** Only the last of the slots that read the same on the other side says anything: started by then is the most. */
function lastOfEach<T>(slots: readonly number[], keyOf: (slot: number) => T): number[] {
  return slots.filter((slot, i) => i + 1 === slots.length || keyOf(slots[i + 1] as number) !== keyOf(slot));
}

function keyOfStarted({ modes }: TaskColumns, slotOf: (mode: Mode) => number): string {
  return modes.map((mode) => lastAtOrBefore(mode.starts, slotOf(mode))).join(",");
}

function sequenceRows(
  task: TaskColumns,
  before: TaskColumns,
  lagSlots: number | null,
  builder: MilpBuilder,
): void {
  if (before.fixed !== null) {
    if (lagSlots === null) return;
    const latest = before.fixed.end + lagSlots;
    const terms: Terms = new Map();
    addStarted(terms, task, 1, () => Number.POSITIVE_INFINITY);
    addStarted(terms, task, -1, () => latest);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
    return;
  }
  const ended = (t: number) => (mode: Mode) => t - mode.slots;
  for (const t of lastOfEach(allStarts(task), (slot) => keyOfStarted(before, ended(slot)))) {
    const terms: Terms = new Map();
    addStarted(terms, task, 1, () => t);
    addStarted(terms, before, -1, ended(t));
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
  if (lagSlots === null) return;
  const ends = [...new Set(before.modes.flatMap(({ starts, slots }) => starts.map((t) => t + slots)))].sort(
    (a, b) => a - b,
  );
  for (const e of lastOfEach(ends, (end) => keyOfStarted(task, () => end + lagSlots))) {
    const terms: Terms = new Map();
    addStarted(terms, before, 1, ended(e));
    addStarted(terms, task, -1, () => e + lagSlots);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
}

function windowRows(
  task: TaskColumns,
  mow: TaskColumns | undefined,
  ready: Int32Array,
  until: Int32Array,
  builder: MilpBuilder,
): void {
  if (mow === undefined) return;
  const middles = [
    ...new Set(mow.modes.flatMap(({ starts, slots }) => starts.map((t) => middleSlot(t, t + slots)))),
  ].sort((a, b) => a - b);
  const mownBy = (q: number) => (mode: Mode) => q - Math.floor(mode.slots / 2);
  // Not before it is ready: who has started by t was mown early enough for that.
  const latestMiddle = (t: number) => {
    let latest = -1;
    for (const q of middles) if ((ready[q] as number) <= t) latest = q;
    return latest;
  };
  for (const t of lastOfEach(allStarts(task), latestMiddle)) {
    const terms: Terms = new Map();
    addStarted(terms, task, 1, () => t);
    addStarted(terms, mow, -1, mownBy(latestMiddle(t)));
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
  // Not after its end: who was mown by q has started in time for that.
  for (const q of lastOfEach(middles, (middle) => until[middle])) {
    const end = until[q] as number;
    const terms: Terms = new Map();
    addStarted(terms, mow, 1, mownBy(q));
    addStarted(terms, task, -1, (mode) => end - mode.slots);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
}

function freeAt(list: readonly { readonly freeUntil: Int32Array }[], t: number): number {
  return list.reduce((sum, { freeUntil }) => sum + ((freeUntil[t] as number) > t ? 1 : 0), 0);
}

function capacityRows(grid: Grid, columns: readonly TaskColumns[][], builder: MilpBuilder): void {
  const all = columns.flatMap((tasks, f) =>
    tasks.map((task, i) => ({ task, f, op: (grid.fields[f] as GridField).tasks[i]?.op as GridTask["op"] })),
  );
  for (const machines of machinePools(grid)) {
    const first = machines[0] as number;
    const users = all.filter(
      ({ task }) =>
        (task.fixed !== null && machines.includes(task.fixed.machine)) ||
        task.modes.some((mode) => mode.machines.includes(first)),
    );
    const list = machines.map((k) => grid.machines[k] as (typeof grid.machines)[number]);
    const use = (tailOf: (f: number, op: GridTask["op"]) => number, capacityAt: (t: number) => number) =>
      rowsOver(
        grid,
        users,
        (mode) => mode.machines.includes(first),
        (k) => machines.includes(k.machine),
        tailOf,
        capacityAt,
        builder,
      );
    use(
      () => 0,
      (t) => freeAt(list, t),
    );
    if (users.some(({ f, op }) => leastDrive(grid, f, (task) => task.op === op) > 0)) {
      use(
        (f, op) => leastDrive(grid, f, (task) => task.op === op),
        () => machines.length,
      );
    }
  }
  rowsOver(
    grid,
    all,
    () => true,
    () => true,
    () => 0,
    (t) => freeAt(grid.people, t),
    builder,
  );
}

interface User {
  readonly task: TaskColumns;
  readonly f: number;
  readonly op: GridTask["op"];
}

/** One row for every slot in which something may start or someone leaves. */
function rowsOver(
  grid: Grid,
  users: readonly User[],
  uses: (mode: Mode) => boolean,
  usesFixed: (fixed: { readonly machine: number }) => boolean,
  tailOf: (f: number, op: GridTask["op"]) => number,
  capacityAt: (t: number) => number,
  builder: MilpBuilder,
): void {
  const matters = new Set<number>();
  for (const { task } of users)
    for (const mode of task.modes) if (uses(mode)) for (const t of mode.starts) matters.add(t);
  for (let t = 1; t < grid.count; t++) if (capacityAt(t) < capacityAt(t - 1)) matters.add(t);
  for (const t of [...matters].sort((a, b) => a - b)) {
    const terms: Terms = new Map();
    let taken = 0;
    let most = 0;
    for (const { task, f, op } of users) {
      const tail = tailOf(f, op);
      if (task.fixed !== null && usesFixed(task.fixed) && task.fixed.start <= t && t < task.fixed.end + tail)
        taken++;
      let may = 0;
      for (const mode of task.modes) {
        if (!uses(mode)) continue;
        const now = lastAtOrBefore(mode.starts, t);
        const over = lastAtOrBefore(mode.starts, t - mode.slots - tail);
        if (now === over) continue;
        may = 1;
        addTerm(terms, mode.cols[now] as number, 1);
        if (over >= 0) addTerm(terms, mode.cols[over] as number, -1);
      }
      most += may;
    }
    const free = Math.max(0, capacityAt(t) - taken);
    if (most > free) builder.row(Number.NEGATIVE_INFINITY, free, terms);
  }
}

function pointOf(
  grid: Grid,
  columns: readonly TaskColumns[][],
  served: readonly number[],
  milp: Milp,
  jobs: readonly GridJob[],
): Float64Array {
  const point = new Float64Array(milp.numCols);
  grid.fields.forEach((field, f) => {
    const own = jobsOfField(field, f, jobs);
    if (own === null) return;
    point[served[f] as number] = 1;
    own.forEach(({ start, machine }, task) => {
      for (const mode of columns[f]?.[task]?.modes ?? []) {
        if (!mode.machines.includes(machine)) continue;
        mode.starts.forEach((t, i) => {
          if (t >= start) point[mode.cols[i] as number] = 1;
        });
      }
    });
  });
  return point;
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
