import { coursesAt, type Grid, type GridField, type GridJob, type GridTask, middleSlot } from "../grid.ts";
import { leftValue, servedValue } from "../value.ts";
import { addJob, dropField, fits, personFor, type Schedule } from "./schedule.ts";

export interface Placed {
  readonly jobs: readonly GridJob[];
  readonly value: number;
}

/** Counted work of a search: what it may cost is told in places tried, so that the same question finds the same plan. */
export interface Tried {
  places: number;
}

/** Places that may be tried for one mowing hour before the search turns to the next. */
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
  if (mow.fixed !== null) {
    consider(mow.fixed.start, mow.fixed.end);
    return choices;
  }
  const lengths = new Set([...mow.slotsOf].filter((slots) => slots > 0));
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
): Placed | null {
  const field = grid.fields[f] as GridField;
  const hasPromises = field.tasks.some(({ before, fixed }, i) => i > 0 && before !== null && fixed === null);
  let best: Placed | null = null;
  let least = leftValue(field) + 1e-9;
  for (const choice of choices) {
    if (choice.hope <= least) break;
    for (const promised of hasPromises ? [true, false] : [false]) {
      const jobs = chainFrom(grid, schedule, f, choice, promised, tried);
      if (jobs === null) continue;
      const value = servedValue(field, jobs);
      if (value > least) {
        best = { jobs, value };
        least = value + 1e-9;
      }
    }
  }
  return best;
}

/** The first of these mowing hours that finds a place and brings anything. */
export function firstPlace(
  grid: Grid,
  schedule: Schedule,
  f: number,
  choices: readonly MowChoice[],
  tried: Tried,
): Placed | null {
  const field = grid.fields[f] as GridField;
  const hasPromises = field.tasks.some(({ before, fixed }, i) => i > 0 && before !== null && fixed === null);
  for (const choice of choices) {
    const jobs = chainFrom(grid, schedule, f, choice, hasPromises, tried);
    if (jobs === null) continue;
    const value = servedValue(field, jobs);
    if (value > leftValue(field) + 1e-9) return { jobs, value };
  }
  return null;
}

/**
 * Every work of the field as early as it can be after a mowing, or as it was promised where it can be; null where one
 * finds no place.
 */
function chainFrom(
  grid: Grid,
  schedule: Schedule,
  f: number,
  { start, end, course }: MowChoice,
  promised: boolean,
  tried: Tried,
): GridJob[] | null {
  const field = grid.fields[f] as GridField;
  const jobs: GridJob[] = [];
  let tries = 0;

  /** With what was placed before in this chain counted as busy: the same person may follow the crop. */
  const place = (index: number): boolean => {
    const task = field.tasks[index];
    if (task === undefined) return true;
    const before = jobs[index - 1];
    if (task.fixed !== null) {
      // Two works that are both held stand as they are: they may touch the same slot.
      const follows = field.tasks[index - 1]?.fixed != null;
      if (!follows && before !== undefined && before.end > task.fixed.start) return false;
      jobs.push({ field: f, task: index, ...task.fixed });
      if (place(index + 1)) return true;
      jobs.pop();
      return false;
    }
    const from = Math.max(
      grid.nowSlot,
      before?.end ?? start,
      task.ready === null ? 0 : (task.ready[course] as number),
    );
    const last = index === 0 ? start : lastStart(grid, task, course, before);
    const nextHasLag = field.tasks[index + 1]?.lagSlots != null;
    if (promised && index > 0 && task.before !== null && task.before >= from && task.before <= last) {
      const job = machineAndPerson(grid, schedule, jobs, f, index, task.before, 0, task, course);
      if (job !== null) {
        jobs.push(job);
        if (place(index + 1)) return true;
        jobs.pop();
      }
    }
    for (let at = index === 0 ? start : from; at <= last; at++) {
      if ((task.openUntil[at] as number) === at) continue;
      tried.places++;
      const job = machineAndPerson(
        grid,
        schedule,
        jobs,
        f,
        index,
        at,
        index === 0 ? end - start : 0,
        task,
        course,
      );
      if (job === null) continue;
      jobs.push(job);
      if (place(index + 1)) return true;
      jobs.pop();
      // A later start helps only what must follow shortly: its own deadline was no easier.
      if (!nextHasLag || ++tries > MOST_TRIES) return false;
    }
    return false;
  };
  return place(0) ? jobs : null;
}

function lastStart(grid: Grid, task: GridTask, course: number, before: GridJob | undefined): number {
  const byWindow = task.until === null ? grid.count : (task.until[course] as number);
  const byLag = task.lagSlots === null || before === undefined ? grid.count : before.end + task.lagSlots;
  return Math.min(byWindow - 1, byLag, grid.count - 1);
}

function machineAndPerson(
  grid: Grid,
  schedule: Schedule,
  chain: readonly GridJob[],
  f: number,
  index: number,
  start: number,
  slotsWanted: number,
  task: GridTask,
  course: number,
): GridJob | null {
  const { site } = grid.fields[f] as GridField;
  let best: GridJob | null = null;
  for (let machine = 0; machine < grid.machines.length; machine++) {
    const slots = task.slotsOf[machine] as number;
    if (slots === 0 || (slotsWanted > 0 && slots !== slotsWanted)) continue;
    const end = start + slots;
    if (best !== null && best.end <= end) continue;
    if (end > (task.openUntil[start] as number)) continue;
    if (task.until !== null && end > (task.until[course] as number)) continue;
    if ((grid.machines[machine]?.freeUntil[start] as number) < end) continue;
    if (!fits(grid, schedule.machines[machine] ?? [], start, end, site)) continue;
    // The chain itself never overlaps: one work of a field follows the other, at one site.
    const person = personOf(grid, schedule, chain, start, end, site);
    if (person >= 0) best = { field: f, task: index, machine, person, start, end };
  }
  return best;
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
    if (free && fits(grid, schedule.people[last.person] ?? [], start, end, site)) return last.person;
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
  dropField(schedule, f, (busy) => fixed.some(({ start, end }) => start === busy.start && end === busy.end));
}
