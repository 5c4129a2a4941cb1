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
}

/** A schedule that holds the fixed work alone. */
export function fixedSchedule(grid: Grid): Schedule {
  const schedule: Schedule = {
    machines: grid.machines.map(() => []),
    people: grid.people.map(() => []),
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
  schedule.machines[job.machine]?.push(busy);
  schedule.people[job.person]?.push(busy);
}

export function dropField(schedule: Schedule, field: number, kept: (busy: Busy) => boolean): void {
  for (const list of [...schedule.machines, ...schedule.people]) {
    for (let i = list.length - 1; i >= 0; i--) {
      const busy = list[i] as Busy;
      if (busy.field === field && !kept(busy)) list.splice(i, 1);
    }
  }
}

/** True where someone with this work can also do [start, end) at the site, the drives before and after included. */
export function fits(grid: Grid, list: readonly Busy[], start: number, end: number, site: number): boolean {
  for (const job of list) {
    const drive = travelOf(grid, job.site, site);
    if (job.end + drive > start && end + drive > job.start) return false;
  }
  return true;
}

/** The first person who can do [start, end) at the site, one who is there already before others; -1 where none can. */
export function personFor(grid: Grid, schedule: Schedule, start: number, end: number, site: number): number {
  let found = -1;
  for (let p = 0; p < grid.people.length; p++) {
    if ((grid.people[p]?.freeUntil[start] as number) < end) continue;
    const list = schedule.people[p] as Busy[];
    if (!fits(grid, list, start, end, site)) continue;
    if (list.some((job) => job.site === site && job.end <= start && start - job.end <= 2)) return p;
    if (found < 0) found = p;
  }
  return found;
}
