import type { Grid, GridField, GridTask } from "../grid.ts";
import { fits, machineFits, type Schedule } from "./schedule.ts";

/** Counted work of a search, hours and mowings looked at: told so, and not by the clock, the same question finds the same plan. */
export interface Tried {
  places: number;
}

/** When a work may be, whatever the mowing: its hours in order. */
export interface Hour {
  readonly start: number;
  readonly end: number;
}

/** The hours of each work of a field at which a machine that can do it and a person are there; held work has its own. */
export type FieldHours = readonly (readonly Hour[])[];

/** Depends on no other field. */
export function fieldHours(grid: Grid, f: number): FieldHours {
  return (grid.fields[f] as GridField).tasks.map((task) => {
    if (task.fixed !== null) return [task.fixed];
    const lengths = [...new Set(task.slotsOf)].filter((slots) => slots > 0).sort((x, y) => x - y);
    const hours: Hour[] = [];
    for (let start = grid.nowSlot; start < grid.count; start++) {
      for (const slots of lengths) {
        const end = start + slots;
        if (end > (task.openUntil[start] as number)) break;
        const isThere = ({ freeUntil }: { readonly freeUntil: Int32Array }) =>
          (freeUntil[start] as number) >= end;
        const machine = grid.machines.some((one, k) => task.slotsOf[k] === slots && isThere(one));
        if (machine && grid.people.some(isThere)) hours.push({ start, end });
      }
    }
    return hours;
  });
}

/** Those of them at which a machine and a person have time; null where some work has none. */
export function freeHours(
  grid: Grid,
  schedule: Schedule,
  f: number,
  hours: FieldHours,
  tried: Tried,
): FieldHours | null {
  const { site, tasks } = grid.fields[f] as GridField;
  const free: (readonly Hour[])[] = [...hours];
  // What has the fewest hours is the likeliest to have none left.
  const order = [...tasks.keys()].sort((x, y) => (hours[x]?.length ?? 0) - (hours[y]?.length ?? 0));
  for (const i of order) {
    const task = tasks[i] as GridTask;
    if (task.fixed !== null) continue;
    const list = hours[i] ?? [];
    tried.places += list.length;
    free[i] = freeOf(grid, schedule, task, site, list);
    if (free[i].length === 0) return null;
  }
  return free;
}

/** Of some hours of a work those at which a machine and a person have time. */
export function freeOf(
  grid: Grid,
  schedule: Schedule,
  task: GridTask,
  site: number,
  hours: readonly Hour[],
): readonly Hour[] {
  return hours.filter(
    ({ start, end }) =>
      machineFor(grid, schedule, task, start, end, site) >= 0 &&
      isSomeoneFree(grid, schedule, start, end, site),
  );
}

/** The first machine that can do it, one that no other takes along before those; -1 where none can. */
export function machineFor(
  grid: Grid,
  schedule: Schedule,
  { slotsOf }: GridTask,
  start: number,
  end: number,
  site: number,
): number {
  let found = -1;
  for (let k = 0; k < grid.machines.length; k++) {
    if (slotsOf[k] !== end - start || (grid.machines[k]?.freeUntil[start] as number) < end) continue;
    if (!machineFits(grid, schedule, k, start, end, site)) continue;
    if (grid.machines[k]?.follows !== true) return k;
    if (found < 0) found = k;
  }
  return found;
}

function isSomeoneFree(grid: Grid, schedule: Schedule, start: number, end: number, site: number): boolean {
  for (let p = 0; p < grid.people.length; p++) {
    if ((grid.people[p]?.freeUntil[start] as number) < end) continue;
    if (fits(grid, schedule.taken.people[p], start, end, site)) return true;
  }
  return false;
}

/** Place of the first hour that starts at a slot or later. */
export function firstFrom(hours: readonly Hour[], slot: number): number {
  let [lo, hi] = [0, hours.length];
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    if ((hours[middle] as Hour).start < slot) lo = middle + 1;
    else hi = middle;
  }
  return lo;
}
