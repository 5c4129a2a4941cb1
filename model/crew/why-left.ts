import type { BuiltCrew } from "./build-grid.ts";
import { type Grid, type GridField, type GridJob, type GridTask, middleSlot, slotUtcMs } from "./grid.ts";
import { lagMsOf } from "./grid-field.ts";
import { bestPlace, mowChoices } from "./heuristic/insert.ts";
import { addJob, fixedSchedule, type Schedule } from "./heuristic/schedule.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import { alwaysThere, withMachine, withPerson } from "./variants.ts";
import { endOfSight, whyNoWindow } from "./why-no-window.ts";
import { dayTime, fieldName, hoursWord, kindWord, opWord, spanTime, spokenClock } from "./words.ts";

function scheduleOf(grid: Grid, jobs: readonly GridJob[]): Schedule {
  const schedule = fixedSchedule(grid);
  for (const job of jobs) {
    if (grid.fields[job.field]?.tasks[job.task]?.fixed === null) addJob(grid, schedule, job);
  }
  return schedule;
}

function placeAlone(grid: Grid, f: number) {
  return bestPlace(grid, fixedSchedule(grid), f, mowChoices(grid, f));
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

/**
 * Why a field is not finished, the first reason that is true, and of several works the first that cannot be done. What is
 * done already stands before it: "left lying, mown Mon 10:00: ...".
 */
export function whyLeft(built: BuiltCrew, jobs: readonly GridJob[], f: number): string {
  const why = reason(built, jobs, f);
  const done = whatIsDone(built, f);
  return done === null ? why : `${done}: ${why}`;
}

/** When a field that is not finished was mown; null where it stands. */
export function mownUtcMs({ grid, nowUtcMs }: BuiltCrew, f: number): number | null {
  const held = grid.fields[f]?.tasks[0]?.fixed;
  const ms = held == null ? Number.NaN : (held.moments?.fromUtcMs ?? slotUtcMs(grid, held.start));
  return ms < nowUtcMs ? ms : null;
}

function whatIsDone(built: BuiltCrew, f: number): string | null {
  const { grid, nowUtcMs } = built;
  const clock = spokenClock(built);
  const field = grid.fields[f] as GridField;
  const mow = field.tasks[0]?.fixed;
  if (mow == null) return null;
  const said = (held: NonNullable<GridTask["fixed"]>) =>
    dayTime(held.moments?.fromUtcMs ?? slotUtcMs(grid, held.start), clock);
  const gather = field.tasks[field.gather];
  const wholly =
    gather?.fixed?.moments !== undefined &&
    gather.fixed.moments.toUtcMs <= nowUtcMs &&
    brokeOffOf(built, f) === undefined;
  if (wholly && gather?.fixed != null) {
    return `${gather.op === "bale" ? "baled" : "chopped"} ${said(gather.fixed)}, the rest is not done`;
  }
  return mownUtcMs(built, f) === null
    ? `its mowing is held at ${said(mow)}`
    : `left lying, mown ${said(mow)}`;
}

function brokeOffOf({ placed, grid }: BuiltCrew, f: number) {
  return placed.find(({ asked, brokeOff }) => brokeOff !== null && asked.fieldId === grid.fields[f]?.id);
}

function reason(built: BuiltCrew, jobs: readonly GridJob[], f: number): string {
  const { grid } = built;
  const clock = spokenClock(built);
  const field = grid.fields[f] as GridField;
  if (field.worth <= 0) return "its value or priority is 0";
  const broken = brokeOffOf(built, f);
  if (broken?.brokeOff != null) {
    const { atUtcMs, leftMs } = broken.brokeOff;
    const machine = built.request.machines[broken.machine];
    return `${opWord(broken.asked.op)} broke off ${dayTime(atUtcMs, clock)} with ${hoursWord(leftMs)} to do, when ${machine?.name ?? machine?.id} went away`;
  }
  const own = notInWindow(built, f) ?? (placeAlone(grid, f) === null ? notAlone(built, f) : null);
  if (own !== null) return own;
  for (const { op, fixed } of field.tasks) {
    const more = withMachine(grid, op);
    if (fixed === null && finds(more, scheduleOf(more, jobs), f)) {
      return `the ${kindWord(KIND_OF_OP[op])} is taken by fields that bring more`;
    }
  }
  const crew = withPerson(grid);
  if (finds(crew, scheduleOf(crew, jobs), f)) return "nobody is free: the crew is at fields that bring more";
  return finds(grid, scheduleOf(grid, jobs), f)
    ? "serving it would cost more in moved visits or lateness than it brings"
    : "machines and crew are taken by fields that bring more";
}

/** What weather, ground, light and the mowing hour forbid, whoever is there; work by work. */
function notInWindow(built: BuiltCrew, f: number): string | null {
  const { grid } = built;
  const clock = spokenClock(built);
  const field = grid.fields[f] as GridField;
  const mow = field.tasks[0];
  const held = mow?.fixed ?? null;
  const never = (task: GridTask) => task.openUntil.every((end, t) => end <= t || t < grid.nowSlot);
  for (const [i, task] of field.tasks.entries()) {
    if (task.fixed !== null) continue;
    const { op } = task;
    const work = opWord(op);
    const slots = leastSlots(task);
    if (!Number.isFinite(slots)) return `there is no ${kindWord(KIND_OF_OP[op])}`;
    const takes = `${work} takes ${hoursWord(slots * grid.slotMs)}`;
    if (slots > longestFree(grid)) return `${takes}, longer than anyone works at a stretch: split the field`;
    if (i === 0 && never(task)) return `no hour of these days is dry and firm enough for ${work}`;
    const until = held === null ? -1 : (task.until?.[middleSlot(held.start, held.end)] ?? -1);
    if (until >= 0 && until <= grid.nowSlot) {
      return `its window for ${work} closed ${dayTime(slotUtcMs(grid, until), clock)}: take ${work} out of its works if it is not needed`;
    }
    const before = field.tasks[i - 1]?.fixed;
    const lagMs = lagMsOf(op, false);
    const endMs = before?.moments?.toUtcMs;
    if (endMs !== undefined && lagMs !== null && endMs + lagMs < slotUtcMs(grid, grid.nowSlot)) {
      return `${work} must start within ${hoursWord(lagMs)} of the work before it, by ${dayTime(endMs + lagMs, clock)}`;
    }
    if (task.ready?.every((slot) => slot < 0)) {
      // All works need a window at once: the first that finds none after any mowing hour is to blame.
      const shut = field.tasks.find((one) => one.fixed === null && one.ready !== null && never(one)) ?? task;
      return whyNoWindow(built, f, shut.op, firstMiddle(grid, field));
    }
    const longest = longestWindow(grid, field, task);
    if (longest < slots) {
      const window = `its longest window for it is ${hoursWord(longest * grid.slotMs)}`;
      return isCutByEnd(grid, task)
        ? `${takes}, but ${endOfSight(built)}: ${window}`
        : `${takes}, but ${window}`;
    }
  }
  return null;
}

function firstMiddle(grid: Grid, field: GridField): number {
  const mow = field.tasks[0] as GridTask;
  if (mow.fixed !== null) return middleSlot(mow.fixed.start, mow.fixed.end);
  const slots = leastSlots(mow);
  for (let t = grid.nowSlot; t + slots <= grid.count; t++) {
    const some = grid.people.some(({ freeUntil }) => (freeUntil[t] as number) >= t + slots);
    if (some && (mow.openUntil[t] as number) >= t + slots) return middleSlot(t, t + slots);
  }
  return grid.nowSlot;
}

/** The longest stretch that any mowing hour leaves for a work, in slots. */
function longestWindow(grid: Grid, field: GridField, task: GridTask): number {
  const mow = field.tasks[0]?.fixed;
  let longest = 0;
  const look = (from: number, until: number) => {
    for (let t = Math.max(grid.nowSlot, from); t < until; t++) {
      longest = Math.max(longest, Math.min(until, task.openUntil[t] as number) - t);
    }
  };
  if (task.ready === null || task.until === null) look(0, grid.count);
  else if (mow != null) {
    const q = middleSlot(mow.start, mow.end);
    look(task.ready[q] as number, task.until[q] as number);
  } else {
    for (let q = 0; q < grid.count; q++) {
      if ((task.ready[q] as number) >= 0) look(task.ready[q] as number, task.until[q] as number);
    }
  }
  return longest;
}

function isCutByEnd(grid: Grid, task: GridTask): boolean {
  return (task.openUntil[grid.count - 1] as number) === grid.count;
}

/** It could be done in its windows, but not with these machines and people, even if no other field were served. */
function notAlone(built: BuiltCrew, f: number): string {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const open = field.tasks.filter(({ fixed }) => fixed === null);
  const ops = open.map(({ op }) => op);
  const free = alwaysThere(grid, ops, false);
  if (placeAlone(free, f) !== null) {
    // The first work that fails although all machines of those after it were there.
    const at = ops.findIndex((_, i) => placeAlone(alwaysThere(grid, ops.slice(i + 1), false), f) === null);
    const op = ops[Math.max(0, at)] as CrewOp;
    const without = alwaysThere(grid, ops.slice(Math.max(0, at)), false);
    const job = placeAlone(without, f)?.jobs.find(({ task }) => field.tasks[task]?.op === op);
    return job === undefined ? `the ${kindWord(KIND_OF_OP[op])} is away` : whereMachineIs(built, op, job);
  }
  const anyone = placeAlone(alwaysThere(grid, ops, true), f);
  if (anyone !== null) {
    const job = anyone.jobs.find(
      ({ task, start, end }) =>
        field.tasks[task]?.fixed === null &&
        !grid.people.some(({ freeUntil }) => (freeUntil[start] as number) >= end),
    );
    const op = field.tasks[job?.task ?? 0]?.op ?? "mow";
    if (job === undefined) return `nobody can follow its works one after the other in their windows`;
    const when = spanTime(slotUtcMs(grid, job.start), slotUtcMs(grid, job.end), spokenClock(built));
    return `nobody is at work when ${opWord(op)} is possible (first ${when})`;
  }
  const works = ops.map(opWord);
  return works.length === 1
    ? `${works[0]} does not fit into its window`
    : `${works.slice(0, -1).join(", ")} and ${works.at(-1)} do not fit into their windows one after the other`;
}

/** "the only baler is away until Thu 08:00", or where it is held. */
function whereMachineIs(built: BuiltCrew, op: CrewOp, job: GridJob): string {
  const { grid, request } = built;
  const clock = spokenClock(built);
  const kind = kindWord(KIND_OF_OP[op]);
  const own = request.machines.filter((machine) => machine.kind === KIND_OF_OP[op]);
  const [fromMs, toMs] = [slotUtcMs(grid, job.start), slotUtcMs(grid, job.end)];
  const name = own.length === 1 && own[0]?.name ? ` (${own[0].name})` : "";
  const who = own.length === 1 ? `the only ${kind}${name}` : `every ${kind}`;
  const offs = own.flatMap(({ offUtc }) =>
    (offUtc ?? [])
      .map((off) => ({ fromMs: Date.parse(off.fromUtc), toMs: Date.parse(off.toUtc) }))
      .filter((off) => off.fromMs < toMs && off.toMs > fromMs),
  );
  if (offs.length > 0) {
    const back = Math.min(...offs.map((off) => off.toMs));
    if (back >= slotUtcMs(grid, grid.count)) return `${who} is away through all of these days`;
    return `${who} is away until ${dayTime(back, clock)}, too late for ${opWord(op)}`;
  }
  const held = built.placed.find(
    ({ asked, moments }) => asked.op === op && moments.fromUtcMs < toMs && moments.toUtcMs > fromMs,
  );
  const at = request.fields.find(({ id }) => id === held?.asked.fieldId);
  return at === undefined
    ? `${who} is held elsewhere when ${opWord(op)} is possible`
    : `${who} is held at ${fieldName(at)} ${spanTime(held?.moments.fromUtcMs ?? 0, held?.moments.toUtcMs ?? 0, clock)}`;
}
