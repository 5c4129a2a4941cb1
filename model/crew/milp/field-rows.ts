import { coursesAt, type Grid, type GridField, type GridTask, middleSlot, waysOf } from "../grid.ts";
import { addStarted, fixedWorth, lastAtOrBefore, type Mode, type TaskColumns } from "./columns.ts";
import { addTerm, type MilpBuilder, type Terms } from "./milp.ts";

/** Rows of one field: all its works or none, one after the other, each in the window that its mowing opens. */

export function fieldRows(
  grid: Grid,
  field: GridField,
  tasks: readonly TaskColumns[],
  served: number,
  builder: MilpBuilder,
): void {
  builder.offset -=
    field.moveCost * field.tasks.filter((task) => task.before !== null && task.fixed === null).length;
  builder.gain[served] = fixedWorth(field);
  const end = () => grid.count;
  tasks.forEach((columns, i) => {
    const task = field.tasks[i] as GridTask;
    if (columns.fixed === null) {
      // All or nothing: each work is done if and only if the field is served.
      const terms: Terms = new Map();
      addStarted(terms, columns, 1, end);
      addTerm(terms, served, -1);
      builder.row(0, 0, terms);
    } else if (i === 0 && !canFollowFixed(field)) {
      builder.row(0, 0, new Map([[served, 1]]));
    }
    if (columns.chosen.length > 0) {
      // One course of a held mowing, if the field is served.
      const terms: Terms = new Map(columns.chosen.map((col) => [col, 1]));
      addTerm(terms, served, -1);
      builder.row(0, 0, terms);
    }
    if (i === 0 || columns.fixed !== null) return;
    sequenceRows(columns, tasks[i - 1] as TaskColumns, task.lagSlots, builder);
    const mow = tasks[0];
    const isChoice = mow?.fixed === null || (mow?.chosen.length ?? 0) > 0;
    if (task.ready !== null && task.until !== null && isChoice) {
      windowRows(field, columns, mow, task.ready, task.until, builder);
    }
  });
}

/** False where mowing is done and a later work has no window, or its fixed work stands in the wrong order. */
function canFollowFixed(field: GridField): boolean {
  const mow = field.tasks[0]?.fixed;
  if (mow == null) return true;
  return coursesAt(field, middleSlot(mow.start, mow.end)).some(
    (course) =>
      Number.isFinite(field.mowGain[course] as number) &&
      field.tasks.every(
        ({ ready, fixed }) => fixed !== null || ready === null || (ready[course] as number) >= 0,
      ),
  );
}

/** Every start of all modes, ascending, each once. */
function allStarts({ modes }: TaskColumns): number[] {
  return [...new Set(modes.flatMap(({ starts }) => starts))].sort((a, b) => a - b);
}

/** Only the last of the slots that read the same on the other side says anything: started by then is the most. */
function lastOfEach<T>(slots: readonly number[], keyOf: (slot: number) => T): number[] {
  return slots.filter((slot, i) => i + 1 === slots.length || keyOf(slots[i + 1] as number) !== keyOf(slot));
}

function keyOfStarted({ modes }: TaskColumns, slotOf: (mode: Mode) => number): string {
  return modes.map((mode) => lastAtOrBefore(mode.starts, slotOf(mode))).join(",");
}

function sequenceRows(
  task: TaskColumns,
  before: TaskColumns,
  lagSlots: number | null,
  builder: MilpBuilder,
): void {
  if (before.fixed !== null) {
    if (lagSlots === null) return;
    const latest = before.fixed.end + lagSlots;
    const terms: Terms = new Map();
    addStarted(terms, task, 1, () => Number.POSITIVE_INFINITY);
    addStarted(terms, task, -1, () => latest);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
    return;
  }
  const ended = (t: number) => (mode: Mode) => t - mode.slots;
  for (const t of lastOfEach(allStarts(task), (slot) => keyOfStarted(before, ended(slot)))) {
    const terms: Terms = new Map();
    addStarted(terms, task, 1, () => t);
    addStarted(terms, before, -1, ended(t));
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
  if (lagSlots === null) return;
  const ends = [...new Set(before.modes.flatMap(({ starts, slots }) => starts.map((t) => t + slots)))].sort(
    (a, b) => a - b,
  );
  for (const e of lastOfEach(ends, (end) => keyOfStarted(task, () => end + lagSlots))) {
    const terms: Terms = new Map();
    addStarted(terms, before, 1, ended(e));
    addStarted(terms, task, -1, () => e + lagSlots);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
}

/** Places in a list of slots that follow each other: their first and last. */
type Run = readonly [first: number, last: number];

function runsOf(slots: readonly number[], isIn: (slot: number) => boolean): readonly Run[] {
  const runs: [number, number][] = [];
  slots.forEach((slot, i) => {
    if (!isIn(slot)) return;
    const run = runs.at(-1);
    if (run?.[1] === i - 1) run[1] = i;
    else runs.push([i, i]);
  });
  return runs;
}

/**
 * Each later work between the opening and the end of the window of its own mowing. Windows mostly follow the order of the
 * mowings, and what is mown in time is then one stretch of them; where rain or dew puts them out of order it is several.
 */
function windowRows(
  field: GridField,
  task: TaskColumns,
  mow: TaskColumns | undefined,
  ready: Int32Array,
  until: Int32Array,
  builder: MilpBuilder,
): void {
  if (mow === undefined) return;
  const ways = Array.from({ length: waysOf(field) }, (_, way) =>
    mow.fixed === null ? mownOnWay(field, mow, way) : heldOnWay(field, mow, way),
  );
  // Not before it is ready: who has started by t was mown at an hour that is ready by then.
  const readyBy = (t: number) => ways.map(({ runs }) => runs((course) => (ready[course] as number) <= t));
  for (const t of lastOfEach(allStarts(task), (slot) => readyBy(slot).join("|"))) {
    const terms: Terms = new Map();
    addStarted(terms, task, 1, () => t);
    for (const [way, runs] of readyBy(t).entries()) ways[way]?.add(terms, runs, -1);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
  // Not after its end: who was mown at an hour whose window ends by then has started in time for that.
  const ends = ways.flatMap(({ courses }) => courses.map((course) => until[course] as number));
  for (const end of new Set(ends)) {
    const terms: Terms = new Map();
    for (const { runs, add } of ways) {
      add(
        terms,
        runs((course) => (until[course] as number) <= end),
        1,
      );
    }
    addStarted(terms, task, -1, (mode) => end - mode.slots);
    builder.row(Number.NEGATIVE_INFINITY, 0, terms);
  }
}

/** The mowings that take the course of one place: their courses, stretches of them, and "was mown in one of these". */
interface Mown {
  readonly courses: readonly number[];
  readonly runs: (isIn: (course: number) => boolean) => readonly Run[];
  readonly add: (terms: Terms, runs: readonly Run[], sign: number) => void;
}

function mownOnWay(field: GridField, { modes, fixed }: TaskColumns, way: number): Mown {
  const own = { modes: modes.filter((mode) => mode.way === way), fixed, chosen: [] };
  const middles = [
    ...new Set(own.modes.flatMap(({ starts, slots }) => starts.map((t) => middleSlot(t, t + slots)))),
  ].sort((a, b) => a - b);
  const courses = middles.map((q) => coursesAt(field, q)[way] as number);
  const mownBy = (i: number) => (mode: Mode) => (middles[i] ?? -1) - Math.floor(mode.slots / 2);
  return {
    courses,
    runs: (isIn) => runsOf(courses, isIn),
    add: (terms, runs, sign) => {
      for (const [first, last] of runs) {
        addStarted(terms, own, sign, mownBy(last));
        if (first > 0) addStarted(terms, own, -sign, mownBy(first - 1));
      }
    },
  };
}

/** The same of a mowing that is held: its own hour alone, if that course is chosen. */
function heldOnWay(field: GridField, { fixed, chosen }: TaskColumns, way: number): Mown {
  const course = fixed === null ? -1 : coursesAt(field, middleSlot(fixed.start, fixed.end))[way];
  const col = chosen[way];
  const courses = course === undefined || col === undefined ? [] : [course];
  return {
    courses,
    runs: (isIn) => runsOf(courses, isIn),
    add: (terms, runs, sign) => {
      if (col !== undefined && runs.length > 0) addTerm(terms, col, sign);
    },
  };
}
