import { type Grid, type GridField, type GridTask, middleSlot } from "./grid.ts";
import { mowChoices } from "./heuristic/insert.ts";
import { leftValue } from "./value.ts";

/** What each field brings if it had every machine and person to itself: no plan brings more. */
export function aloneValues(grid: Grid): number[] {
  return grid.fields.map((field, f) =>
    Math.max(leftValue(field), mowChoices(grid, f)[0]?.hope ?? leftValue(field)),
  );
}

function leastSlotsOf(task: GridTask): number {
  return [...task.slotsOf].reduce(
    (least, slots) => (slots > 0 ? Math.min(least, slots) : least),
    Number.POSITIVE_INFINITY,
  );
}

/**
 * The pool-load bound: for each kind of machine and for the crew, the fields share out the slots in which any of them can
 * do that work; a part of a field counts as that part of its value. Weak, because windows and order are forgotten.
 */
export function poolLoadBound(grid: Grid): number {
  const alone = aloneValues(grid);
  const base = grid.fields.reduce((sum, field) => sum + leftValue(field), 0);
  const extra = alone.map((value, f) => value - leftValue(grid.fields[f] as GridField));
  let bound = base + extra.reduce((sum, value) => sum + value, 0);
  const pack = (slotsOf: (field: GridField) => number, capacity: number) => {
    const items = grid.fields
      .map((field, f) => ({ slots: slotsOf(field), value: extra[f] as number }))
      .filter(({ value }) => value > 0)
      .sort((a, b) => b.value * a.slots - a.value * b.slots);
    let left = capacity;
    let sum = base;
    for (const { slots, value } of items) {
      const part = slots === 0 ? 1 : Math.min(1, left / slots);
      sum += part * value;
      left = Math.max(0, left - slots);
    }
    bound = Math.min(bound, sum);
  };
  const ops = new Set(grid.machines.map(({ op }) => op));
  for (const op of ops) {
    const users = grid.fields.flatMap(({ tasks }) =>
      tasks.filter((task) => task.op === op && task.fixed === null),
    );
    const useful = usefulSlots(grid, users);
    const capacity = grid.machines.reduce(
      (sum, machine) => sum + (machine.op === op ? freeSlots(grid, machine.freeUntil, useful) : 0),
      0,
    );
    pack((field) => taskSlots(field, (task) => task.op === op), capacity);
  }
  const anyUseful = usefulSlots(
    grid,
    grid.fields.flatMap(({ tasks }) => tasks),
  );
  const crew = grid.people.reduce((sum, { freeUntil }) => sum + freeSlots(grid, freeUntil, anyUseful), 0);
  pack((field) => taskSlots(field, () => true), crew);
  return bound;
}

function taskSlots(field: GridField, counts: (task: GridTask) => boolean): number {
  return field.tasks.reduce((sum, task) => {
    const slots = task.fixed === null && counts(task) ? leastSlotsOf(task) : 0;
    return sum + (Number.isFinite(slots) ? slots : 0);
  }, 0);
}

function usefulSlots(grid: Grid, tasks: readonly GridTask[]): Uint8Array {
  const useful = new Uint8Array(grid.count);
  for (const { openUntil } of tasks) {
    for (let t = grid.nowSlot; t < grid.count; t++) if ((openUntil[t] as number) > t) useful[t] = 1;
  }
  return useful;
}

function freeSlots(grid: Grid, freeUntil: Int32Array, useful: Uint8Array): number {
  let sum = 0;
  for (let t = grid.nowSlot; t < grid.count; t++) if (useful[t] === 1 && (freeUntil[t] as number) > t) sum++;
  return sum;
}

/** True where the mowing of a field that is fixed opens no window for what must follow. */
export function isShut(field: GridField): boolean {
  const mow = field.tasks[0]?.fixed;
  if (mow == null) return false;
  const q = middleSlot(mow.start, mow.end);
  return !Number.isFinite(field.mowGain[q] as number);
}
