import type { BuiltCrew } from "./build-grid.ts";
import type { Grid, GridField, GridJob } from "./grid.ts";
import { bestPlace, mowChoices } from "./heuristic/insert.ts";
import { addJob, fixedSchedule, type Schedule } from "./heuristic/schedule.ts";
import { KIND_OF_OP } from "./keys.ts";
import { withMachine, withPerson } from "./variants.ts";
import { kindWord, opWord } from "./words.ts";

function scheduleOf(grid: Grid, jobs: readonly GridJob[]): Schedule {
  const schedule = fixedSchedule(grid);
  for (const job of jobs) {
    if (grid.fields[job.field]?.tasks[job.task]?.fixed === null) addJob(grid, schedule, job);
  }
  return schedule;
}

function finds(grid: Grid, schedule: Schedule, f: number): boolean {
  return bestPlace(grid, schedule, f, mowChoices(grid, f)) !== null;
}

/** Why a field is left standing, the first reason that is true. */
export function whyLeft(built: BuiltCrew, jobs: readonly GridJob[], f: number): string {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const ops = built.request.fields[f]?.ops ?? [];
  const mow = field.tasks[0];
  if (field.worth <= 0) return "its value or priority is 0";
  if (mow?.fixed === null && mow.openUntil.every((end, t) => end <= t || t < grid.nowSlot)) {
    return "no hour of these days is dry and firm enough for mowing";
  }
  const windows = built.windows[f]?.windows ?? [];
  const shut = windows.find(({ ready }) => ready.every((slot) => slot < 0));
  if (shut !== undefined) {
    const never = windows.find(({ open }) => open.every((yes) => yes === 0)) ?? shut;
    const after = mow?.fixed == null ? "no mowing hour of these days opens" : "its mowing opens no";
    return `${after} ${mow?.fixed == null ? "a window" : "window"} for ${opWord(never.op)}: rain comes first, or it does not dry enough`;
  }
  if (mowChoices(grid, f).length === 0) return "no mowing hour leads to a window for all that must follow";
  if (!finds(grid, fixedSchedule(grid), f)) {
    return `even with all machines and people for itself its work does not fit into the windows and working hours`;
  }
  const schedule = scheduleOf(grid, jobs);
  for (const op of ops) {
    const more = withMachine(grid, op);
    if (finds(more, scheduleOf(more, jobs), f)) {
      return `the ${kindWord(KIND_OF_OP[op])} is taken by fields that bring more`;
    }
  }
  const crew = withPerson(grid);
  if (finds(crew, scheduleOf(crew, jobs), f)) return "nobody is free: the crew is at fields that bring more";
  return finds(grid, schedule, f)
    ? "serving it would cost more in moved visits or lateness than it brings"
    : "machines and crew are taken by fields that bring more";
}
