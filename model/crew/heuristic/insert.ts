import { coursesAt, type Grid, type GridField, type GridJob, type GridTask, middleSlot } from "../grid.ts";
import { leftValue, servedValue } from "../value.ts";
import {
  type FieldHours,
  fieldHours,
  firstFrom,
  freeHours,
  type Hour,
  machineFor,
  type Tried,
} from "./hours.ts";
import { addJob, dropField, fits, personFor, type Schedule } from "./schedule.ts";

export interface Placed {
  readonly jobs: readonly GridJob[];
  readonly value: number;
}

/** Hours that may be tried after one mowing before the search turns to the next. */
const MOST_TRIES = 60;

/** Mowing hours worth trying with each number of slots, and of each the dry spells to rake in; the most promising first. */
export interface MowChoice {
  readonly start: number;
  readonly end: number;
  readonly course: number;
  readonly hope: number;
}

/** The mowing hours of a field, by what they could bring at best. Depends on no other field. */
export function mowChoices(grid: Grid, f: number): readonly MowChoice[] {
  const field = grid.fields[f] as GridField;
  const mow = field.tasks[0] as GridTask;
  const choices: MowChoice[] = [];
  const consider = (start: number, end: number) => {
    for (const course of coursesAt(field, middleSlot(start, end))) {
      const hope = hopeOf(field, start, course);
      if (hope !== null && hope > leftValue(field)) choices.push({ start, end, course, hope });
    }
  };
  if (mow.fixed !== null) consider(mow.fixed.start, mow.fixed.end);
  const lengths = new Set(mow.fixed === null ? [...mow.slotsOf].filter((slots) => slots > 0) : []);
  for (const slots of lengths) {
    for (let start = grid.nowSlot; start + slots <= grid.count; start++) {
      if ((mow.openUntil[start] as number) >= start + slots) consider(start, start + slots);
    }
  }
  return choices.sort((a, b) => b.hope - a.hope || a.start - b.start || a.course - b.course);
}

/** At best: every later work as early as its window opens, every promised visit kept. Null where a window is missing. */
function hopeOf(field: GridField, start: number, course: number): number | null {
  const gain = field.mowGain[course] as number;
  if (!Number.isFinite(gain)) return null;
  for (const { ready, fixed } of field.tasks) {
    if (fixed === null && ready !== null && (ready[course] as number) < 0) return null;
  }
  const gather = field.gather < 0 ? undefined : field.tasks[field.gather];
  const at = gather?.fixed?.start ?? (gather?.ready?.[course] as number | undefined);
  const moved =
    field.tasks[0]?.fixed === null && field.tasks[0].before !== null && field.tasks[0].before !== start;
  return (
    field.worth * (gain - (at === undefined ? 0 : (field.gatherCost[at] as number))) -
    (moved ? field.moveCost : 0)
  );
}

/** The best place for a field among what is there already; null where none brings anything. */
export function bestPlace(
  grid: Grid,
  schedule: Schedule,
  f: number,
  choices: readonly MowChoice[],
  tried: Tried = { places: 0 },
  hours: FieldHours = fieldHours(grid, f),
): Placed | null {
  return placeOf(grid, schedule, f, choices, tried, hours, false);
}

/** The first of these mowing hours that finds a place and brings anything. */
export function firstPlace(
  grid: Grid,
  schedule: Schedule,
  f: number,
  choices: readonly MowChoice[],
  tried: Tried,
  hours: FieldHours,
): Placed | null {
  return placeOf(grid, schedule, f, choices, tried, hours, true);
}

function placeOf(
  grid: Grid,
  schedule: Schedule,
  f: number,
  choices: readonly MowChoice[],
  tried: Tried,
  hours: FieldHours,
  first: boolean,
): Placed | null {
  const field = grid.fields[f] as GridField;
  const free = choices.length === 0 ? null : freeHours(grid, schedule, f, hours, tried);
  if (free === null) return null;
  const hasPromises = field.tasks.some(({ before, fixed }, i) => i > 0 && before !== null && fixed === null);
  let best: { readonly hours: readonly Hour[]; readonly value: number } | null = null;
  let least = leftValue(field) + 1e-9;
  for (const choice of choices) {
    if (choice.hope <= least) {
      if (first) continue;
      break;
    }
    tried.places++;
    if (!mayFollow(grid, field, free, choice)) continue;
    for (const promised of hasPromises ? [true, false] : [false]) {
      const chain = chainFrom(grid, field, free, choice, promised);
      if (chain === null) continue;
      const value = servedValue(field, chain);
      if (value > least) {
        best = { hours: chain, value };
        least = value + 1e-9;
      }
    }
    if (first && best !== null) break;
  }
  if (best === null) return null;
  return { jobs: withHands(grid, schedule, f, best.hours), value: best.value };
}

/** False where the mowing has no time, or some work no free hour in the window that it opens: told before any hour is tried. */
function mayFollow(
  grid: Grid,
  field: GridField,
  free: FieldHours,
  { start, end, course }: MowChoice,
): boolean {
  return field.tasks.every((task, i) => {
    if (task.fixed !== null) return true;
    const list = free[i] ?? [];
    const from = i === 0 ? start : Math.max(end, task.ready === null ? 0 : (task.ready[course] as number));
    const until = task.until === null ? grid.count : (task.until[course] as number);
    for (let at = firstFrom(list, from); at < list.length; at++) {
      const hour = list[at] as Hour;
      if (i === 0 ? hour.start > start : hour.start >= until) return false;
      if (i === 0 ? hour.end === end : hour.end <= until) return true;
    }
    return false;
  });
}

/**
 * Every work of the field as early as it can be after a mowing, or as it was promised where it can be; null where one
 * finds no hour. Works of one field follow each other at one place, so that none is in the way of another.
 */
function chainFrom(
  grid: Grid,
  field: GridField,
  free: FieldHours,
  { start, end, course }: MowChoice,
  promised: boolean,
): readonly Hour[] | null {
  const chain: Hour[] = [];
  let tries = 0;
  const place = (index: number): boolean => {
    const task = field.tasks[index];
    if (task === undefined) return true;
    const before = chain[index - 1];
    if (task.fixed !== null) {
      // Two works that are both held stand as they are: they may touch the same slot.
      const follows = field.tasks[index - 1]?.fixed != null;
      if (!follows && before !== undefined && before.end > task.fixed.start) return false;
      return then(index, task.fixed);
    }
    const list = free[index] ?? [];
    const from = Math.max(before?.end ?? start, task.ready === null ? 0 : (task.ready[course] as number));
    const last = index === 0 ? start : lastStart(grid, task, course, before);
    const until = task.until === null ? grid.count : (task.until[course] as number);
    const fitting = ({ end: to }: Hour) => (index === 0 ? to === end : to <= until);
    const nextHasLag = field.tasks[index + 1]?.lagSlots != null;
    if (promised && index > 0 && task.before !== null && task.before >= from && task.before <= last) {
      const at = list[firstFrom(list, task.before)];
      if (at?.start === task.before && fitting(at) && then(index, at)) return true;
    }
    for (let i = firstFrom(list, from); i < list.length; i++) {
      const hour = list[i] as Hour;
      if (hour.start > last) return false;
      if (!fitting(hour)) continue;
      if (then(index, hour)) return true;
      // A later start helps only what must follow shortly: its own deadline was no easier.
      if (!nextHasLag || ++tries > MOST_TRIES) return false;
    }
    return false;
  };
  const then = (index: number, hour: Hour): boolean => {
    chain.push(hour);
    if (place(index + 1)) return true;
    chain.pop();
    return false;
  };
  return place(0) ? chain : null;
}

function lastStart(grid: Grid, task: GridTask, course: number, before: Hour | undefined): number {
  const byWindow = task.until === null ? grid.count : (task.until[course] as number);
  const byLag = task.lagSlots === null || before === undefined ? grid.count : before.end + task.lagSlots;
  return Math.min(byWindow - 1, byLag, grid.count - 1);
}

/** These hours with a machine and a person that have time; whoever did the work before stays where they can. */
function withHands(grid: Grid, schedule: Schedule, f: number, chain: readonly Hour[]): GridJob[] {
  const { site, tasks } = grid.fields[f] as GridField;
  const jobs: GridJob[] = [];
  for (const [index, { start, end }] of chain.entries()) {
    const task = tasks[index] as GridTask;
    if (task.fixed !== null) jobs.push({ field: f, task: index, ...task.fixed });
    else {
      const machine = machineFor(grid, schedule, task, start, end, site);
      jobs.push({
        field: f,
        task: index,
        machine,
        person: personOf(grid, schedule, jobs, start, end, site),
        start,
        end,
      });
    }
  }
  return jobs;
}

function personOf(
  grid: Grid,
  schedule: Schedule,
  chain: readonly GridJob[],
  start: number,
  end: number,
  site: number,
): number {
  const last = chain.at(-1);
  if (last !== undefined && start - last.end <= 2) {
    const free = (grid.people[last.person]?.freeUntil[start] as number) >= end;
    if (free && fits(grid, schedule.taken.people[last.person], start, end, site)) return last.person;
  }
  return personFor(grid, schedule, start, end, site);
}

/** Puts a placed field into the schedule; its fixed work is there already. */
export function takePlace(grid: Grid, schedule: Schedule, placed: Placed): void {
  for (const job of placed.jobs) {
    if (grid.fields[job.field]?.tasks[job.task]?.fixed === null) addJob(grid, schedule, job);
  }
}

/** Takes a field out again, but for its fixed work. */
export function removeField(grid: Grid, schedule: Schedule, f: number): void {
  const fixed = (grid.fields[f] as GridField).tasks.flatMap(({ fixed }) => fixed ?? []);
  dropField(grid, schedule, f, (busy) =>
    fixed.some(({ start, end }) => start === busy.start && end === busy.end),
  );
}
