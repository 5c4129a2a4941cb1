import { placeAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { heldPasses } from "./fixed-work.ts";
import {
  coursesAt,
  type Grid,
  type GridField,
  type GridJob,
  type GridTask,
  middleSlot,
  slotUtcMs,
  stretchEnds,
  waysOf,
} from "./grid.ts";
import { isByDayOnly, lightSlots } from "./grid-slots.ts";
import type { CrewFieldRequest } from "./request.ts";
import { type OpenWork, type ToldCourse, type ToldField, toldCourses } from "./told-hours.ts";
import { jobsOfField } from "./value.ts";
import type { FieldWindows } from "./windows/field-windows.ts";
import { membersNeeded } from "./windows/fit-reader.ts";
import { keptShares } from "./windows/kept.ts";
import type { SlotWindow } from "./windows/runs.ts";
import { type GainAt, gainIn, partsOf } from "./windows/usual.ts";

/**
 * Windows reckon with tedding and raking at their usual hours, and with a little in hand: they may leave a field none, or
 * none that the replay of the plan agrees with, though some mowing, raking and baling would bring it in dry. Such a field
 * is given the windows that the replay itself finds, hour by hour.
 */

/** Courses of members that this may follow in all: about a second of one core. */
const MOST_COURSES = 8000;
/** Half as many again for fields that are left though they have windows, of most worth first: enough for a few. */
const LEFT_SHARE = 0.5;
const MOST_LEFT = 4;
/** Mowing hours are tried in this order of their slots, so that a part of them is spread over the days. */
const STRIDE = 4;

/** The mowing of a field with its middle in a slot. */
interface Mowing {
  readonly q: number;
  readonly middleUtcMs: number;
  readonly end: number;
}

interface ToldOptions {
  /** The fields that may be given windows; absent = all. */
  readonly only?: readonly number[] | undefined;
  /** Courses of members that may be followed; absent = about a second's. */
  readonly courses?: number | undefined;
  /** True = fields that are served are given windows too: they may stand in the way of those that are left. */
  readonly served?: boolean | undefined;
}

/**
 * The task with windows from the replay for fields that its windows fail: those that a plan's replay doubts, and those that
 * the plan leaves, before all those that find no place even by themselves. What is held, or who is at work, may leave a
 * field only hours that its windows are too strict for.
 *
 * @param doubted ids of fields that the replay of the plan speaks against
 * @returns null where there is no such field, or none that the replay finds hours for
 */
export function withToldWindows(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  doubted: readonly string[],
  stop: () => boolean,
  { only, courses: inAll = MOST_COURSES, served = false }: ToldOptions = {},
): BuiltCrew | null {
  const { grid } = built;
  const asked = [...(only ?? grid.fields.keys())].filter(
    (f) => !built.told.includes(grid.fields[f]?.id ?? ""),
  );
  const isDoubted = (f: number) => doubted.includes(grid.fields[f]?.id ?? "");
  const left = asked
    .filter((f) => !isDoubted(f) && (served || jobsOfField(grid.fields[f] as GridField, f, jobs) === null))
    .map((f) => ({ f, hasPlace: placeAlone(grid, f) !== null, worth: grid.fields[f]?.worth ?? 0 }));
  const failed = [...asked.filter(isDoubted), ...left.filter(({ hasPlace }) => !hasPlace).map(({ f }) => f)];
  const inTheWay = left
    .filter(({ hasPlace }) => hasPlace)
    .sort((a, b) => b.worth - a.worth)
    .slice(0, served ? grid.fields.length : MOST_LEFT)
    .map(({ f }) => f);
  const counted = { courses: 0 };
  const found = new Map<number, GridField>();
  const tell = (f: number, most: number) => {
    const told = toldField(built, f);
    if (told === null) return;
    const courses = new Map<number, readonly ToldCourse[]>();
    for (const mowing of mowingsOf(grid, grid.fields[f] as GridField)) {
      if (counted.courses >= most || stop()) break;
      if (told.members.some(({ weather }) => mowing.middleUtcMs < weather.startUtcMs)) continue;
      const own = toldCourses(told, mowing.middleUtcMs, mowing.end, counted);
      if (own.length > 0) courses.set(mowing.q, own);
    }
    const field = grid.fields[f] as GridField;
    // A field that is served keeps the windows that it has, one that is left those of the mowings that the replay fails.
    const more = [...courses].filter(
      ([q]) => !isDoubted(f) || !coursesAt(field, q).some((at) => isOpen(field, at)),
    );
    const keepsOthers = isDoubted(f) || inTheWay.includes(f);
    if (more.length > 0) found.set(f, withCourses(field, told, gainOf(built, f), new Map(more), keepsOthers));
  };
  const share = (list: readonly number[], inAll: number) => {
    const until = counted.courses + inAll;
    list.forEach((f, i) => {
      tell(f, counted.courses + (until - counted.courses) / (list.length - i));
    });
  };
  share(failed, inAll);
  share(inTheWay, inAll * (served ? 1 : LEFT_SHARE));
  if (found.size === 0) return null;
  const fields = grid.fields.map((field, f) => found.get(f) ?? field);
  const ids = grid.fields.filter((_, f) => found.has(f)).map(({ id }) => id);
  return { ...built, grid: { ...grid, fields }, told: [...built.told, ...ids] };
}

/** What is asked of one field; null where nothing is to be planned that takes its crop. */
function toldField(built: BuiltCrew, f: number): ToldField | null {
  const { grid, request, sites } = built;
  const field = grid.fields[f] as GridField;
  const asked = request.fields[f];
  const site = sites[asked?.siteId ?? ""];
  const gather = field.tasks[field.gather];
  if (asked === undefined || site === undefined || gather === undefined || gather.fixed !== null) return null;
  if (built.placed.some(({ asked: { fieldId }, brokeOff }) => fieldId === field.id && brokeOff !== null))
    return null;
  const lit = stretchEnds(lightSlots(grid, site, isByDayOnly(request)));
  const works = field.tasks.slice(0, field.gather + 1).flatMap((task, i): OpenWork[] => {
    if (i === 0 || task.fixed !== null) return [];
    return [openWork(grid, field, i, lit)];
  });
  const [passes, last] = [works.slice(0, -1), works.at(-1)];
  if (last === undefined || works.some(({ least }) => least === 0)) return null;
  const share = request.readyShare ?? CREW_DEFAULTS.readyShare.value;
  const all = built.members[f] ?? [];
  return {
    field: asked,
    // Who is rained on most speaks first: an hour that fails in too many members is given up.
    members: [...all].sort((one, other) => rainOf(other.weather.rainMm) - rainOf(one.weather.rainMm)),
    frame: grid,
    need: membersNeeded(all, share),
    passes,
    gather: last,
    held: heldPasses(built.placed.filter(({ asked: { fieldId } }) => fieldId === field.id)),
  };
}

function rainOf(rainMm: Float64Array): number {
  return rainMm.reduce((sum, mm) => sum + mm, 0);
}

function openWork(grid: Grid, field: GridField, index: number, lit: Int32Array): OpenWork {
  const task = field.tasks[index] as GridTask;
  const lengths = [...task.slotsOf].filter((slots) => slots > 0);
  const [least, most] = lengths.length === 0 ? [0, 0] : [Math.min(...lengths), Math.max(...lengths)];
  const behind = field.tasks.slice(0, index).map(({ fixed }) => fixed?.end ?? 0);
  return {
    op: task.op,
    least,
    most,
    from: Math.max(grid.nowSlot, ...behind),
    lit: Uint8Array.from(lit, (end, t) => (end >= t + least ? 1 : 0)),
    manned: Uint8Array.from(lit, (_, t) => (isManned(grid, task, t) ? 1 : 0)),
    lagSlots: task.lagSlots,
  };
}

/** Whether some machine and somebody are there for all of a work that starts in a slot; of a mowing, with so many slots. */
function isManned(grid: Grid, { slotsOf }: GridTask, t: number, asLong: number | null = null): boolean {
  return grid.machines.some(({ freeUntil }, machine) => {
    const slots = slotsOf[machine] as number;
    if (slots === 0 || (asLong !== null && slots !== asLong)) return false;
    if ((freeUntil[t] as number) < t + slots) return false;
    return grid.people.some((person) => (person.freeUntil[t] as number) >= t + slots);
  });
}

/** Every mowing that there may be, spread over the days. */
function mowingsOf(grid: Grid, field: GridField): readonly Mowing[] {
  const mow = field.tasks[0] as GridTask;
  const at = (start: number, end: number): Mowing => {
    const { fromUtcMs, toUtcMs } = mow.fixed?.moments ?? {
      fromUtcMs: slotUtcMs(grid, start),
      toUtcMs: slotUtcMs(grid, end),
    };
    return { q: middleSlot(start, end), middleUtcMs: (fromUtcMs + toUtcMs) / 2, end };
  };
  if (mow.fixed !== null) return [at(mow.fixed.start, mow.fixed.end)];
  const byMiddle = new Map<number, Mowing>();
  for (const slots of new Set([...mow.slotsOf].filter((slots) => slots > 0))) {
    for (let t = grid.nowSlot; t + slots <= grid.count; t++) {
      if ((mow.openUntil[t] as number) < t + slots || !isManned(grid, mow, t, slots)) continue;
      const mowing = at(t, t + slots);
      const known = byMiddle.get(mowing.q);
      // Of two mowers the slower one tells: what is cut later dries later.
      if (known === undefined || known.end < mowing.end) byMiddle.set(mowing.q, mowing);
    }
  }
  const turn = ({ q }: Mowing) => (q % STRIDE) * grid.count + q;
  return [...byMiddle.values()].sort((a, b) => turn(a) - turn(b));
}

function isOpen({ mowGain }: GridField, course: number): boolean {
  return Number.isFinite(mowGain[course]);
}

/** How the hours that are told are counted: as those of all windows are. */
export function gainOf({ grid, request, members, windows }: BuiltCrew, f: number): GainAt {
  const { gatherCost } = grid.fields[f] as GridField;
  const kept = keptShares(request.fields[f] as CrewFieldRequest, members[f] ?? [], grid, gatherCost);
  return gainIn((windows[f] as FieldWindows).usual, kept, grid.count);
}

/** The field with these courses, and the others that it had or none. */
function withCourses(
  field: GridField,
  { frame, passes, gather }: ToldField,
  gainAt: GainAt,
  whole: ReadonlyMap<number, readonly ToldCourse[]>,
  keepsOthers: boolean,
): GridField {
  const found = new Map(
    [...whole].map(([q, own]) => [
      q,
      own.flatMap((course) =>
        partsOf(course.at(-1) as SlotWindow, (slot) => gainAt(q, slot)).map((part) => [
          ...course.slice(0, -1),
          part,
        ]),
      ),
    ]),
  );
  const ways = Math.max(keepsOthers ? waysOf(field) : 1, ...[...found.values()].map((own) => own.length));
  const works = [...passes, gather];
  const mowGain = new Float64Array(ways * frame.count).fill(Number.NaN);
  if (keepsOthers) mowGain.set(field.mowGain);
  for (const [q, own] of found) {
    for (let way = 0; way < ways; way++) mowGain[way * frame.count + q] = Number.NaN;
    own.forEach((course, way) => {
      const taken = course.at(-1)?.ready ?? q;
      mowGain[way * frame.count + q] = gainAt(q, taken);
    });
  }
  const tasks = field.tasks.map((task): GridTask => {
    if (task.ready === null) return task;
    const at = works.findIndex(({ op }) => op === task.op);
    const ready = new Int32Array(ways * frame.count).fill(-1);
    const until = new Int32Array(ways * frame.count).fill(-1);
    if (keepsOthers) {
      ready.set(task.ready);
      until.set(task.until ?? []);
    }
    const open = Uint8Array.from(task.openUntil, (end, t) => (end > t ? 1 : 0));
    for (const [q, own] of found) {
      for (let way = 0; way < ways; way++) ready[way * frame.count + q] = -1;
      own.forEach((course, way) => {
        const span = course[at];
        if (span === undefined) return;
        ready[way * frame.count + q] = span.ready;
        until[way * frame.count + q] = span.until;
        open.fill(1, span.ready, span.until);
      });
    }
    return { ...task, ready, until, openUntil: stretchEnds(open) };
  });
  return { ...field, mowGain, tasks };
}
