import { type Grid, type GridJob, travelOf } from "../grid.ts";

interface Busy {
  readonly start: number;
  readonly end: number;
  readonly site: number;
  readonly field: number;
}

/** Who is where when: the machines' and the people's work so far. */
export interface Schedule {
  readonly machines: readonly Busy[][];
  readonly people: readonly Busy[][];
  /** The same counted: how many of their works leave no time to be at a site in a slot, at [site * slots + slot]. */
  readonly taken: { readonly machines: readonly Uint8Array[]; readonly people: readonly Uint8Array[] };
}

/** A schedule that holds the fixed work alone. */
export function fixedSchedule(grid: Grid): Schedule {
  const empty = () => new Uint8Array(grid.siteIds.length * grid.count);
  const schedule: Schedule = {
    machines: grid.machines.map(() => []),
    people: grid.people.map(() => []),
    taken: { machines: grid.machines.map(empty), people: grid.people.map(empty) },
  };
  for (const job of fixedJobs(grid)) addJob(grid, schedule, job);
  return schedule;
}

/** A schedule of a whole plan, fixed work of fields left out of it too. */
export function scheduleOf(grid: Grid, jobs: readonly GridJob[]): Schedule {
  const schedule = fixedSchedule(grid);
  for (const job of jobs) {
    if (grid.fields[job.field]?.tasks[job.task]?.fixed === null) addJob(grid, schedule, job);
  }
  return schedule;
}

export function fixedJobs(grid: Grid): GridJob[] {
  return grid.fields.flatMap((field, f) =>
    field.tasks.flatMap(({ fixed }, task) => (fixed === null ? [] : [{ field: f, task, ...fixed }])),
  );
}

export function addJob(grid: Grid, schedule: Schedule, job: GridJob): void {
  const busy = {
    start: job.start,
    end: job.end,
    field: job.field,
    site: grid.fields[job.field]?.site ?? 0,
  };
  const take = (k: number) => {
    schedule.machines[k]?.push(busy);
    count(grid, schedule.taken.machines[k], busy, 1);
  };
  take(job.machine);
  grid.machines[job.machine]?.along?.forEach(take);
  schedule.people[job.person]?.push(busy);
  count(grid, schedule.taken.people[job.person], busy, 1);
}

/** Counts a work, or no longer, wherever and whenever it leaves no time to be there. */
function count(grid: Grid, taken: Uint8Array | undefined, { start, end, site }: Busy, by: 1 | -1): void {
  if (taken === undefined) return;
  for (let other = 0; other < grid.siteIds.length; other++) {
    const drive = travelOf(grid, site, other);
    const at = other * grid.count;
    const to = Math.min(grid.count, end + drive);
    for (let t = Math.max(0, start - drive); t < to; t++) taken[at + t] = (taken[at + t] as number) + by;
  }
}

export function dropField(
  grid: Grid,
  schedule: Schedule,
  field: number,
  kept: (busy: Busy) => boolean,
): void {
  const drop = (list: Busy[], taken: Uint8Array | undefined) => {
    for (let i = list.length - 1; i >= 0; i--) {
      const busy = list[i] as Busy;
      if (busy.field !== field || kept(busy)) continue;
      list.splice(i, 1);
      count(grid, taken, busy, -1);
    }
  };
  for (const [k, list] of schedule.machines.entries()) drop(list, schedule.taken.machines[k]);
  for (const [p, list] of schedule.people.entries()) drop(list, schedule.taken.people[p]);
}

/** True where somebody with these works counted can also do [start, end) at the site, the drives before and after included. */
export function fits(
  grid: Grid,
  taken: Uint8Array | undefined,
  start: number,
  end: number,
  site: number,
): boolean {
  if (taken === undefined) return false;
  const at = site * grid.count;
  for (let t = start; t < end; t++) if (taken[at + t] !== 0) return false;
  return true;
}

/** The same of a machine and of all that it takes along. */
export function machineFits(
  grid: Grid,
  schedule: Schedule,
  machine: number,
  start: number,
  end: number,
  site: number,
): boolean {
  const { machines: taken } = schedule.taken;
  if (!fits(grid, taken[machine], start, end, site)) return false;
  const along = grid.machines[machine]?.along;
  return along === undefined || along.every((k) => fits(grid, taken[k], start, end, site));
}

/** The first person who can do [start, end) at the site, one who is there already before others; -1 where none can. */
export function personFor(grid: Grid, schedule: Schedule, start: number, end: number, site: number): number {
  let found = -1;
  for (let p = 0; p < grid.people.length; p++) {
    if ((grid.people[p]?.freeUntil[start] as number) < end) continue;
    const list = schedule.people[p] as Busy[];
    if (!fits(grid, schedule.taken.people[p], start, end, site)) continue;
    if (list.some((job) => job.site === site && job.end <= start && start - job.end <= 2)) return p;
    if (found < 0) found = p;
  }
  return found;
}
