import type { CrewOp } from "./keys.ts";
import type { Span } from "./problem.ts";

/**
 * The crew's task on a grid of equal slots: what the heuristic, the step model and the checks all read. Slot i covers
 * [startUtcMs + i slotMs, startUtcMs + (i + 1) slotMs). A job fills whole slots.
 */
export interface Grid {
  readonly startUtcMs: number;
  readonly slotMs: number;
  readonly count: number;
  /** New work starts no earlier than this slot. */
  readonly nowSlot: number;
  readonly siteIds: readonly string[];
  /** Whole slots to drive from site i to site j, at [i * sites + j]. */
  readonly travelSlots: Int32Array;
  readonly fields: readonly GridField[];
  readonly machines: readonly GridResource[];
  readonly people: readonly GridResource[];
}

/** A machine or a person: `freeUntil[t]` is the end of the stretch they can work that holds slot t, t where they cannot. */
export interface GridResource {
  readonly id: string;
  /** The operation of a machine; null for a person, who does any. */
  readonly op: CrewOp | null;
  readonly freeUntil: Int32Array;
  /** Places of the machines that it takes along to its works: the carts behind a chopper. Absent = none. */
  readonly along?: readonly number[] | undefined;
  /** `freeUntil` of a machine as if it took none along; absent = it takes none, or none of them has times off. */
  readonly ownUntil?: Int32Array | undefined;
  /** Another one takes it along; absent = none does. */
  readonly follows?: boolean | undefined;
  /** The same of a person's hours as if there were no times off; absent = there are none. */
  readonly hoursUntil?: Int32Array | undefined;
  /** 1 in a person's times off, in their hours or not; absent = there are none. */
  readonly off?: Uint8Array | undefined;
}

export interface GridFixed {
  readonly start: number;
  readonly end: number;
  /** Indices into the grid's machines and people. */
  readonly machine: number;
  readonly person: number;
  /** Its hours to the minute; `start` and `end` are the slots that they touch. Absent = whole slots. */
  readonly moments?: Span | undefined;
}

export interface GridTask {
  readonly op: CrewOp;
  /** Slots the work takes with each machine of the grid; 0 where that machine cannot do it. */
  readonly slotsOf: Int32Array;
  /** End of the stretch of slots fit for this work that holds slot t, t where none does; whatever the mowing hour. */
  readonly openUntil: Int32Array;
  /**
   * The window that a mowing opens, by its course (see `courseOf`): the work starts at `ready` or later and has ended by
   * `until`; -1 where none opens. Null where the mowing does not matter.
   */
  readonly ready: Int32Array | null;
  readonly until: Int32Array | null;
  /** The work starts at most so many slots after the end of the one before; null = any time. */
  readonly lagSlots: number | null;
  readonly fixed: GridFixed | null;
  /** Start in the plan that is being changed; null where there is none. */
  readonly before: number | null;
}

export interface GridField {
  readonly id: string;
  readonly site: number;
  /** Area, value per hectare and priority multiplied: what the field brings if nothing is lost. */
  readonly worth: number;
  readonly tasks: readonly GridTask[];
  /** Place among `tasks` of the work that takes the crop off the swath; -1 where none does. */
  readonly gather: number;
  /** Kept share = mowGain[course] - gatherCost[start of gathering]; NaN where a course opens no window. */
  readonly mowGain: Float64Array;
  /** As long as the grid. */
  readonly gatherCost: Float64Array;
  /** What it costs that the last work ends at the end of slot e - 1, for e = 0 ... count. */
  readonly lateCost: Float64Array;
  /** What a visit costs that was promised and moves or falls out. */
  readonly moveCost: number;
}

export interface GridJob {
  readonly field: number;
  readonly task: number;
  readonly machine: number;
  readonly person: number;
  readonly start: number;
  readonly end: number;
}

/** Ends of stretches from flags: what `freeUntil` and `openUntil` are made of. */
export function stretchEnds(flags: ArrayLike<number | boolean>): Int32Array {
  const ends = new Int32Array(flags.length);
  for (let t = flags.length - 1; t >= 0; t--) {
    if (!flags[t]) ends[t] = t;
    else ends[t] = t + 1 < flags.length && flags[t + 1] ? (ends[t + 1] as number) : t + 1;
  }
  return ends;
}

/** Slot of the middle of a mowing: its window is that of a cut there. */
export function middleSlot(start: number, end: number): number {
  return start + Math.floor((end - start) / 2);
}

/** How many courses a mowing hour of the field may have at most. */
export function waysOf({ mowGain, gatherCost }: GridField): number {
  return Math.max(1, Math.round(mowGain.length / Math.max(1, gatherCost.length)));
}

/** Every course of a mowing with its middle in a slot, the preferred first. */
export function coursesAt(field: GridField, q: number): number[] {
  return Array.from({ length: waysOf(field) }, (_, way) => way * field.gatherCost.length + q);
}

/** Slot of the middle of the mowing that a course begins with. */
export function mowingOf({ gatherCost }: GridField, course: number): number {
  return gatherCost.length === 0 ? course : course % gatherCost.length;
}

/**
 * What the windows of a field are found by: the slot of the middle of its mowing and the stretches of fit hours that the
 * later works are done in. The raking tells the windrow, of which the gathering tells the stretch; then come the other
 * works. Each stands in the stretch that has begun last, where one has.
 *
 * @param jobs the works of the field in the order of its tasks, as far as they are known
 */
export function courseOf(
  field: GridField,
  jobs: readonly (Pick<GridJob, "start" | "end"> | undefined)[],
): number {
  const mow = jobs[0];
  if (mow === undefined) return -1;
  const q = middleSlot(mow.start, mow.end);
  if (waysOf(field) === 1) return q;
  let courses = coursesAt(field, q).filter((course) => Number.isFinite(field.mowGain[course] as number));
  const rake = field.tasks.findIndex(({ op }) => op === "rake");
  const begun = (i: number) => {
    const { ready, fixed } = field.tasks[i] as GridTask;
    const start = jobs[i]?.start;
    if (courses.length < 2 || ready === null || fixed !== null || start === undefined) return;
    const opened = courses.map((course) => ready[course] as number).filter((slot) => slot <= start);
    const last = Math.max(...opened);
    if (opened.length > 0) courses = courses.filter((course) => ready[course] === last);
  };
  if (rake > 0) begun(rake);
  if (field.gather > 0) begun(field.gather);
  for (let i = 1; i < field.tasks.length; i++) if (i !== rake && i !== field.gather) begun(i);
  return courses[0] ?? q;
}

export function slotUtcMs(grid: Grid, slot: number): number {
  return grid.startUtcMs + slot * grid.slotMs;
}

/** When a job is: fixed work to the minute, planned work in whole slots. */
export function momentsOf(grid: Grid, { field, task, start, end }: GridJob): Span {
  const held = grid.fields[field]?.tasks[task]?.fixed?.moments;
  return held ?? { fromUtcMs: slotUtcMs(grid, start), toUtcMs: slotUtcMs(grid, end) };
}

export function travelOf(grid: Grid, fromSite: number, toSite: number): number {
  return grid.travelSlots[fromSite * grid.siteIds.length + toSite] as number;
}

/** The shortest drive from a field to another one where any of these works is done; 0 where there is none. */
export function leastDrive(grid: Grid, f: number, counts: (task: GridTask) => boolean): number {
  const site = grid.fields[f]?.site ?? 0;
  let least = Number.POSITIVE_INFINITY;
  grid.fields.forEach((other, g) => {
    if (g !== f && other.tasks.some(counts)) least = Math.min(least, travelOf(grid, site, other.site));
  });
  return Number.isFinite(least) ? least : 0;
}
