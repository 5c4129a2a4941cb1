import type { BuiltCrew } from "./build-grid.ts";
import type { GridJob } from "./grid.ts";
import { addJob, fits, fixedSchedule, machineFits, personFor, type Schedule } from "./heuristic/schedule.ts";
import { gridJobs } from "./rules-of.ts";

/**
 * The plan with the machines and people of the plan before, first of all at the visits that keep their hours: the objective does not tell
 * one driver from another, people do. As it was where the others would then find nobody.
 */
export function withSameHands(built: BuiltCrew, planned: readonly GridJob[]): readonly GridJob[] {
  const { grid, request } = built;
  if (request.previous == null) return planned;
  const before = gridJobs(built, request.previous.jobs);
  const schedule = fixedSchedule(grid);
  const given = new Map<GridJob, GridJob>();
  const isHeld = ({ field, task }: GridJob) => grid.fields[field]?.tasks[task]?.fixed != null;
  const give = (job: GridJob, as: GridJob) => {
    given.set(job, as);
    addJob(grid, schedule, as);
  };
  const oldOf = (job: GridJob) => before.find(({ field, task }) => field === job.field && task === job.task);
  const byOld = (job: GridJob, { machine, person }: GridJob): GridJob => ({ ...job, machine, person });
  const open = planned.filter((job) => !isHeld(job));
  for (const job of open) {
    const old = oldOf(job);
    if (old === undefined || old.start !== job.start || old.end !== job.end) continue;
    const as = byOld(job, old);
    if (can(built, schedule, as)) give(job, as);
  }
  for (const job of open.filter((one) => !given.has(one))) {
    const old = oldOf(job);
    const same = old === undefined ? [] : [byOld(job, old)];
    const as = [...same, job].find((one) => can(built, schedule, one)) ?? elsewhere(built, schedule, job);
    if (as === null) return planned;
    give(job, as);
  }
  return planned.map((job) => given.get(job) ?? job);
}

function siteOf({ grid }: BuiltCrew, { field }: GridJob): number {
  return grid.fields[field]?.site ?? 0;
}

function machineCan(built: BuiltCrew, schedule: Schedule, job: GridJob): boolean {
  const { grid } = built;
  const { field, task, machine, start, end } = job;
  return (
    grid.fields[field]?.tasks[task]?.slotsOf[machine] === end - start &&
    (grid.machines[machine]?.freeUntil[start] ?? 0) >= end &&
    machineFits(grid, schedule, machine, start, end, siteOf(built, job))
  );
}

function can(built: BuiltCrew, schedule: Schedule, job: GridJob): boolean {
  const { grid } = built;
  const { person, start, end } = job;
  return (
    machineCan(built, schedule, job) &&
    (grid.people[person]?.freeUntil[start] ?? 0) >= end &&
    fits(grid, schedule.taken.people[person], start, end, siteOf(built, job))
  );
}

/** The same hours with whoever is free; null where nobody is. */
function elsewhere(built: BuiltCrew, schedule: Schedule, job: GridJob): GridJob | null {
  const { grid } = built;
  const machine = [job.machine, ...grid.machines.keys()].find((k) =>
    machineCan(built, schedule, { ...job, machine: k }),
  );
  const person = personFor(grid, schedule, job.start, job.end, siteOf(built, job));
  return machine === undefined || person < 0 ? null : { ...job, machine, person };
}
