import type { BuiltCrew } from "./build-grid.ts";
import {
  type Grid,
  type GridField,
  type GridFixed,
  type GridJob,
  type GridTask,
  middleSlot,
} from "./grid.ts";
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

function leastSlots({ slotsOf }: GridTask): number {
  return Math.min(...[...slotsOf].filter((slots) => slots > 0));
}

function longestFree({ people }: Grid): number {
  return Math.max(0, ...people.flatMap(({ freeUntil }) => [...freeUntil].map((end, t) => end - t)));
}

function isOver(grid: Grid, until: Int32Array | null, mow: GridFixed): boolean {
  const end = until?.[middleSlot(mow.start, mow.end)] ?? -1;
  return end >= 0 && end <= grid.nowSlot;
}

/** Why a field is left standing, the first reason that is true. */
export function whyLeft(built: BuiltCrew, jobs: readonly GridJob[], f: number): string {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const ops = built.request.fields[f]?.ops ?? [];
  const mow = field.tasks[0];
  if (field.worth <= 0) return "its value or priority is 0";
  const long = field.tasks.find((task) => task.fixed === null && leastSlots(task) > longestFree(grid));
  if (long !== undefined) {
    const hours = Math.round((leastSlots(long) * grid.slotMs) / 3_600_000);
    return `${opWord(long.op)} takes ${hours} h, longer than anyone works at a stretch: split the field`;
  }
  const over = field.tasks.find(
    ({ until, fixed }) => mow?.fixed != null && fixed === null && isOver(grid, until, mow.fixed),
  );
  if (over !== undefined) {
    return `its window for ${opWord(over.op)} is over: take that out of its works if it is not needed`;
  }
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
