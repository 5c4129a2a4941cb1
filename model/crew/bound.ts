import { type Alone, fieldsAlone } from "./alone.ts";
import { coursesAt, type Grid, type GridField, type GridTask, leastDrive, middleSlot } from "./grid.ts";
import { fixedSchedule } from "./heuristic/schedule.ts";
import type { CrewOp } from "./keys.ts";
import { leftValue } from "./value.ts";

/** What a field takes of one kind of machine, or of the crew, and how much of that there is. */
interface Pool {
  readonly capacity: number;
  /** Slots by field, the drives that no order of work escapes included. */
  readonly loads: readonly number[];
}

/** Steps by which the pools are weighed against one another. */
const STEPS = 150;

/**
 * The pool-load bound: for each kind of machine and for the crew, the fields share out the slots in which any of them can
 * do that work, in the windows of its mowings; a part of a field counts as that part of its value. Weak, because the order is forgotten and
 * windows are those of all mowings together. A field
 * that cannot be served even alone counts nothing.
 *
 * Drives: in one stretch of work a machine that goes from field to field drives at least the shortest way from each but
 * the last. So each visit is charged its shortest drive, and each stretch may be longer by the longest of these.
 *
 * All pools at once by Lagrange multipliers: whatever their prices, no plan brings more than the price of all slots and
 * what each field brings above the price of the slots that it takes (weak duality). The prices are found by subgradients.
 */
export function poolLoadBound(grid: Grid): number {
  const alone = fieldsAlone(grid);
  const base = grid.fields.reduce((sum, field) => sum + leftValue(field), 0);
  const extra = alone.map(({ value }, f) => value - leftValue(grid.fields[f] as GridField));
  const pools = [...machinePoolsOf(grid, alone, extra), ...crewPools(grid, alone, extra)].filter(
    ({ capacity, loads }) => loads.reduce((sum, load) => sum + load, 0) > capacity,
  );
  const all = extra.reduce((sum, value) => sum + value, 0);
  return base + Math.min(all, ...pools.map((pool) => packed(pool, extra)), priced(pools, extra));
}

/** One pool by itself: fields in the order of value per slot, the last one in part. */
function packed({ capacity, loads }: Pool, extra: readonly number[]): number {
  const items = extra
    .map((value, f) => ({ slots: loads[f] as number, value }))
    .filter(({ value }) => value > 0)
    .sort((a, b) => b.value * a.slots - a.value * b.slots);
  let left = capacity;
  let sum = 0;
  for (const { slots, value } of items) {
    sum += value * (slots === 0 ? 1 : Math.min(1, left / slots));
    left = Math.max(0, left - slots);
  }
  return sum;
}

/** All pools together; every round's sum is a bound, the least of them is told. */
function priced(pools: readonly Pool[], extra: readonly number[]): number {
  if (pools.length < 2) return Number.POSITIVE_INFINITY;
  const prices = pools.map(() => 0);
  const total = extra.reduce((sum, value) => sum + value, 0);
  let best = Number.POSITIVE_INFINITY;
  for (let step = 0; step < STEPS; step++) {
    let bound = pools.reduce((sum, { capacity }, k) => sum + capacity * (prices[k] as number), 0);
    const over = pools.map(({ capacity }) => -capacity);
    extra.forEach((value, f) => {
      const gain = pools.reduce(
        (left, { loads }, k) => left - (prices[k] as number) * (loads[f] as number),
        value,
      );
      if (gain <= 0) return;
      bound += gain;
      pools.forEach(({ loads }, k) => {
        over[k] = (over[k] as number) + (loads[f] as number);
      });
    });
    best = Math.min(best, bound);
    const norm = over.reduce((sum, one) => sum + one * one, 0);
    if (norm === 0) break;
    const length = (0.1 * total * 0.97 ** step) / norm;
    over.forEach((one, k) => {
      prices[k] = Math.max(0, (prices[k] as number) + length * one);
    });
  }
  return best;
}

function leastSlotsOf(task: GridTask): number {
  return [...task.slotsOf].reduce(
    (least, slots) => (slots > 0 ? Math.min(least, slots) : least),
    Number.POSITIVE_INFINITY,
  );
}

function machinePoolsOf(grid: Grid, alone: readonly Alone[], extra: readonly number[]): Pool[] {
  const { machines: busy } = fixedSchedule(grid);
  return [...new Set(grid.machines.map(({ op }) => op))].flatMap((op) => {
    const counts = (task: GridTask) => task.op === op;
    const useful = usefulSlots(grid, alone, extra, counts);
    // What follows another machine may drive on to that one's next work.
    const goesTo = new Set([op, ...leadersOf(grid, op)]);
    const drives = grid.fields.map((_, f) => leastDrive(grid, f, (task) => goesTo.has(task.op)));
    const slots = grid.fields.map((field) => taskSlots(field, counts));
    const visits = grid.fields.map(({ tasks }) =>
      tasks.some((task) => counts(task) && task.fixed === null) ? 1 : 0,
    );
    const stretches = grid.machines.flatMap((machine, k) =>
      machine.op === op ? stretchesOf(grid, machine.freeUntil, useful, busy[k] ?? []) : [],
    );
    return withDrives(stretches, slots, visits, drives, leastTask(grid, counts));
  });
}

/** Works of the machines that take some of this work's along. */
function leadersOf({ machines }: Grid, op: CrewOp | null): (CrewOp | null)[] {
  return machines.flatMap((leader) =>
    leader.along?.some((k) => machines[k]?.op === op) === true ? [leader.op] : [],
  );
}

function crewPools(grid: Grid, alone: readonly Alone[], extra: readonly number[]): Pool[] {
  const { people: busy } = fixedSchedule(grid);
  const useful = usefulSlots(grid, alone, extra, () => true);
  const anyone = new Uint8Array(grid.count);
  for (const { freeUntil } of grid.people) {
    for (let t = 0; t < grid.count; t++) if (useful[t] === 1 && (freeUntil[t] as number) > t) anyone[t] = 1;
  }
  const drives = grid.fields.map((_, f) => leastDrive(grid, f, () => true));
  const slots = grid.fields.map((field) => taskSlots(field, () => true));
  const visits = grid.fields.map((field, f) => comesAtLeast(field, alone[f] as Alone, anyone));
  const stretches = grid.people.flatMap(({ freeUntil }, p) =>
    stretchesOf(grid, freeUntil, useful, busy[p] ?? []),
  );
  return withDrives(
    stretches,
    slots,
    visits,
    drives,
    leastTask(grid, () => true),
  );
}

/** The pool without its drives and with them: neither is the stricter one always. */
function withDrives(
  stretches: readonly number[],
  slots: readonly number[],
  visits: readonly number[],
  drives: readonly number[],
  least: number,
): Pool[] {
  // A stretch shorter than any work holds none.
  const usable = stretches.filter((length) => length >= least);
  const capacity = usable.reduce((sum, length) => sum + length, 0);
  const longest = Math.max(0, ...drives.filter((_, f) => (visits[f] as number) > 0));
  if (longest === 0) return [{ capacity, loads: slots }];
  const loads = slots.map((own, f) => own + (visits[f] as number) * (drives[f] as number));
  return [
    { capacity, loads: slots },
    { capacity: capacity + longest * usable.length, loads },
  ];
}

/** How often somebody must come to a field at least: twice where no stretch of work holds mowing and gathering. */
function comesAtLeast(field: GridField, { places }: Alone, anyone: Uint8Array): number {
  const open = field.tasks.filter(({ fixed }) => fixed === null).length;
  const [mow, gather] = [field.tasks[0], field.tasks[field.gather]];
  if (open === 0) return 0;
  if (field.gather < 1 || mow?.fixed != null || gather?.fixed !== null || gather.ready === null) return 1;
  const { ready } = gather;
  const mowings = (places[0] ?? []).flatMap(({ start, end }) =>
    coursesAt(field, middleSlot(start, end)).map((course) => ({ course, end })),
  );
  const inOne = mowings.some(({ course, end }) => {
    const from = ready[course] as number;
    if (from < 0) return false;
    // The next hour of gathering lies in the same stretch if somebody may be at work all the way to it.
    let t = end;
    while (t < from && anyone[t] === 1) t++;
    return t >= from && anyone[Math.max(from, end)] === 1;
  });
  return inOne ? 1 : 2;
}

function taskSlots(field: GridField, counts: (task: GridTask) => boolean): number {
  return field.tasks.reduce((sum, task) => {
    const slots = task.fixed === null && counts(task) ? leastSlotsOf(task) : 0;
    return sum + (Number.isFinite(slots) ? slots : 0);
  }, 0);
}

function leastTask(grid: Grid, counts: (task: GridTask) => boolean): number {
  const all = grid.fields.flatMap(({ tasks }) =>
    tasks.filter((task) => task.fixed === null && counts(task)).map(leastSlotsOf),
  );
  return Math.min(Number.POSITIVE_INFINITY, ...all);
}

/** Slots in which the work of some field that can be served may lie, in the windows of its mowings. */
function usefulSlots(
  grid: Grid,
  alone: readonly Alone[],
  extra: readonly number[],
  counts: (task: GridTask) => boolean,
): Uint8Array {
  const useful = new Uint8Array(grid.count);
  grid.fields.forEach(({ tasks }, f) => {
    if ((extra[f] as number) <= 0) return;
    tasks.forEach((task, i) => {
      if (task.fixed !== null || !counts(task)) return;
      for (const { start, end } of alone[f]?.places[i] ?? []) useful.fill(1, start, end);
    });
  });
  return useful;
}

/** Lengths of the stretches in which somebody is free for something useful, held work taken out. */
function stretchesOf(
  grid: Grid,
  freeUntil: Int32Array,
  useful: Uint8Array,
  busy: readonly { readonly start: number; readonly end: number }[],
): number[] {
  const stretches: number[] = [];
  let length = 0;
  for (let t = grid.nowSlot; t <= grid.count; t++) {
    const free =
      t < grid.count &&
      useful[t] === 1 &&
      (freeUntil[t] as number) > t &&
      !busy.some(({ start, end }) => start <= t && t < end);
    if (free) length++;
    else if (length > 0) {
      stretches.push(length);
      length = 0;
    }
  }
  return stretches;
}
