import { coursesAt, type Grid, type GridField, type GridTask, middleSlot } from "./grid.ts";
import { type FieldHours, fieldHours, firstFrom, freeOf, type Hour } from "./heuristic/hours.ts";
import { bestPlace, type MowChoice, mowChoices } from "./heuristic/insert.ts";
import { fixedSchedule, type Schedule } from "./heuristic/schedule.ts";
import { leftValue } from "./value.ts";

/** A field by itself: where each work could be, and the most that it brings; 0 over `left` where it cannot be served. */
export interface Alone {
  /** Hours of each work, of those that lie in the window of some mowing and between the works before and behind it. */
  readonly places: FieldHours;
  /** Mowings with the course that they begin, as `mowingKey` has them, after which every later work has an hour. */
  readonly mowings: ReadonlySet<string>;
  readonly value: number;
}

export function mowingKey({ start, end }: Hour, course: number): string {
  return `${start}-${end}-${course}`;
}

/** Where a field by itself is served best, if held work is all that stands in its way; null where it cannot be served. */
export function placeAlone(grid: Grid, f: number) {
  return bestPlace(grid, fixedSchedule(grid), f, mowChoices(grid, f));
}

/** The hours at which each work of a field could be, if no other field were served: of a chain of works, not each by itself. */
export function placesAlone(grid: Grid, f: number): FieldHours {
  const field = grid.fields[f] as GridField;
  return reachable(field, hoursBeside(grid, fixedSchedule(grid), f)).places;
}

/**
 * What each field brings if it had every machine and person to itself, but for held work: no plan brings more. Exact: all
 * hours of all works are followed, not the earliest alone.
 */
export function fieldsAlone(grid: Grid): readonly Alone[] {
  const schedule = fixedSchedule(grid);
  return grid.fields.map((field, f) => {
    const places = hoursBeside(grid, schedule, f);
    let value = leftValue(field);
    if (places.every((list) => list.length > 0)) {
      // The most promising first: none behind brings more than it promises.
      for (const choice of mowChoices(grid, f)) {
        if (choice.hope <= value) break;
        value = Math.max(value, chainValue(field, places, choice));
      }
    }
    return { ...reachable(field, places), value };
  });
}

/** The hours of each work at which a machine and a person have time beside what is in a schedule. */
function hoursBeside(grid: Grid, schedule: Schedule, f: number): FieldHours {
  const { site, tasks } = grid.fields[f] as GridField;
  return fieldHours(grid, f).map((hours, i) => {
    const task = tasks[i] as GridTask;
    return task.fixed === null ? freeOf(grid, schedule, task, site, hours) : hours;
  });
}

/** The places that some mowing can lead to: those in its windows, not before the first end before, nor past the last start behind. */
function reachable(field: GridField, places: FieldHours): Pick<Alone, "places" | "mowings"> {
  const possible = new Set<string>();
  const lists = places.map((list) => ({
    list,
    least: list.reduce((least, { start, end }) => Math.min(least, end - start), Number.POSITIVE_INFINITY),
    most: list.reduce((most, { start, end }) => Math.max(most, end - start), 0),
    // Ranges of the list that some mowing leads to: +1 where one begins, -1 behind its last.
    marks: new Int32Array(list.length + 1),
  }));
  const mowings = (places[0] ?? []).flatMap((mow, at) =>
    coursesAt(field, middleSlot(mow.start, mow.end)).map((course) => ({ mow, at, course })),
  );
  for (const { mow, at, course } of mowings) {
    if (!Number.isFinite(field.mowGain[course] as number)) continue;
    const ranges: { lo: number; hi: number }[] = [{ lo: at, hi: at + 1 }];
    let [firstEnd, lastEnd] = [mow.end, mow.end];
    for (let i = 1; i < lists.length; i++) {
      const { list, least, most } = lists[i] as (typeof lists)[number];
      const { fixed, ready, until, lagSlots } = field.tasks[i] as GridTask;
      const held = fixed !== null;
      const bothHeld = held && field.tasks[i - 1]?.fixed != null;
      const opens = held || ready === null ? 0 : (ready[course] as number);
      const closes = held || until === null ? Number.POSITIVE_INFINITY : (until[course] as number);
      const latest = held || lagSlots === null ? Number.POSITIVE_INFINITY : lastEnd + lagSlots;
      const lo = firstFrom(list, Math.max(opens, bothHeld ? 0 : firstEnd));
      const hi = firstFrom(list, Math.min(latest, closes - least) + 1);
      if (opens < 0 || hi <= lo) break;
      ranges.push({ lo, hi });
      firstEnd = (list[lo] as Hour).start + least;
      lastEnd = Math.min(closes, (list[hi - 1] as Hour).start + most);
    }
    if (ranges.length < lists.length) continue;
    possible.add(mowingKey(mow, course));
    let lastStart = Number.POSITIVE_INFINITY;
    for (let i = lists.length - 1; i >= 0; i--) {
      const { list, least, marks } = lists[i] as (typeof lists)[number];
      const range = ranges[i] as (typeof ranges)[number];
      const held = field.tasks[i]?.fixed !== null;
      const hi = held ? range.hi : Math.min(range.hi, firstFrom(list, lastStart - least + 1));
      if (hi <= range.lo) break;
      marks[range.lo] = (marks[range.lo] as number) + 1;
      marks[hi] = (marks[hi] as number) - 1;
      lastStart = (list[hi - 1] as Hour).start;
    }
  }
  const reached = lists.map(({ list, marks }) => {
    let open = 0;
    return list.filter((_, j) => {
      open += marks[j] as number;
      return open > 0;
    });
  });
  return { places: reached, mowings: possible };
}

/** The most that a field brings after one mowing, over all hours of the works behind it. */
function chainValue(field: GridField, places: FieldHours, mow: MowChoice): number {
  if (!places[0]?.some(({ start, end }) => start === mow.start && end === mow.end)) {
    return Number.NEGATIVE_INFINITY;
  }
  const { course } = mow;
  const movedCost = (task: GridTask, start: number) =>
    task.fixed === null && task.before !== null && task.before !== start ? field.moveCost : 0;
  const first = field.tasks[0] as GridTask;
  // Best value so far by the slot in which the last work ended.
  let ends = new Map([
    [mow.end, field.worth * (field.mowGain[course] as number) - movedCost(first, mow.start)],
  ]);
  for (const [i, task] of field.tasks.entries()) {
    if (i === 0) continue;
    const bothHeld = task.fixed !== null && field.tasks[i - 1]?.fixed != null;
    const from = task.fixed !== null || task.ready === null ? 0 : (task.ready[course] as number);
    const until =
      task.fixed !== null || task.until === null ? Number.POSITIVE_INFINITY : (task.until[course] as number);
    const next = new Map<number, number>();
    for (const { start, end } of places[i] ?? []) {
      if (start < from || end > until) continue;
      let best = Number.NEGATIVE_INFINITY;
      for (const [before, value] of ends) {
        if (!bothHeld && before > start) continue;
        if (task.fixed === null && task.lagSlots !== null && start > before + task.lagSlots) continue;
        best = Math.max(best, value);
      }
      if (i === field.gather) best -= field.worth * (field.gatherCost[start] as number);
      best -= movedCost(task, start);
      if (best > (next.get(end) ?? Number.NEGATIVE_INFINITY)) next.set(end, best);
    }
    ends = next;
  }
  let most = Number.NEGATIVE_INFINITY;
  for (const [end, value] of ends) most = Math.max(most, value - (field.lateCost[end] as number));
  return most;
}
