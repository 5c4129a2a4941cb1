import { placeAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import {
  coursesAt,
  type Grid,
  type GridField,
  type GridJob,
  type GridTask,
  middleSlot,
  slotUtcMs,
} from "./grid.ts";
import { lagMsOf } from "./grid-field.ts";
import { isByDayOnly } from "./grid-slots.ts";
import { type HeldAhead, heldAhead, heldInTheWay } from "./held-in-vain.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { Reason } from "./reason.ts";
import { type IfThere, NOBODY, notAlone } from "./who-is-away.ts";
import { NO_TIME, whyTaken, withoutCosts } from "./who-is-taken.ts";
import { endOfSight, rainWords, whyNoWindow } from "./why-no-window.ts";
import { dayTime, hoursWord, kindWord, listWords, opWord, spokenClock } from "./words.ts";

function leastSlots({ slotsOf }: GridTask): number {
  return Math.min(...[...slotsOf].filter((slots) => slots > 0));
}

/** Said after the hour of a mowing that is held though nothing after it can follow. */
const WOULD_LIE = ", but it would lie mown (do not mow)";

function longestFree({ people }: Grid): number {
  return Math.max(0, ...people.flatMap(({ freeUntil }) => [...freeUntil].map((end, t) => end - t)));
}

/** Whether somebody is at work from now on. */
function isAnyoneAhead({ people, nowSlot }: Grid): boolean {
  return people.some(({ freeUntil }) => freeUntil.some((end, t) => t >= nowSlot && end > t));
}

/**
 * Why a field is not finished, the first reason that is true, and of several works the first that cannot be done. What is
 * done already stands before it: "left lying, mown Mon 10:00: ...".
 */
export function whyLeft(built: BuiltCrew, jobs: readonly GridJob[], f: number, ifThere: IfThere): Reason {
  const { why, customerWhy } = reason(built, jobs, f, ifThere);
  const done = whatIsDone(built, f);
  const inVain = heldForNothing(built, f);
  // A reason that is that held work itself names it.
  const held = inVain !== null && !why.startsWith(inVain) ? inVain : null;
  const first = [done, held && `${held} for nothing`].filter(Boolean).join(", and ");
  if (first === "") return { why, ...(customerWhy === undefined ? {} : { customerWhy }) };
  // What the crew is to do about it is no word for a customer.
  const doubt = done === null ? held : done.includes(WOULD_LIE) ? done.replace(WOULD_LIE, "") : null;
  const told = doubt === null ? done : `${doubt}, and is in doubt`;
  const differs = doubt !== null || held !== null || customerWhy !== undefined;
  return {
    why: `${first}, because ${why}`,
    ...(differs ? { customerWhy: `${told}, because ${customerWhy ?? why}` } : {}),
  };
}

/** "its baling is held at Tue 14 Jul 15:00" of work still ahead for which the field is not made ready; null where there is none. */
function heldForNothing(built: BuiltCrew, f: number): string | null {
  const [ahead] = heldAhead(built, f);
  return ahead === undefined ? null : heldWords(built, ahead);
}

function heldWords(built: BuiltCrew, { op, fromUtcMs }: HeldAhead): string {
  return `its ${opWord(op)} is held at ${dayTime(fromUtcMs, spokenClock(built))}`;
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
    ? `its mowing is held at ${said(mow)}${WOULD_LIE}`
    : `left lying, mown ${said(mow)}`;
}

function brokeOffOf({ placed, grid }: BuiltCrew, f: number) {
  return placed.find(({ asked, brokeOff }) => brokeOff !== null && asked.fieldId === grid.fields[f]?.id);
}

function reason(built: BuiltCrew, jobs: readonly GridJob[], f: number, ifThere: IfThere): Reason {
  const { grid } = built;
  const clock = spokenClock(built);
  const field = grid.fields[f] as GridField;
  if (field.worth <= 0) {
    return { why: "its value or priority is 0", customerWhy: "there is no room for it in these days" };
  }
  const lacking = field.tasks.filter((task) => task.fixed === null && !Number.isFinite(leastSlots(task)));
  if (lacking.length > 0) {
    const kinds = [...new Set(lacking.map(({ op }) => kindWord(KIND_OF_OP[op])))];
    const none = `there is ${listWords(kinds.map((kind) => `no ${kind}`))}`;
    return { why: `${none} in the list`, customerWhy: `${none} for it` };
  }
  const broken = brokeOffOf(built, f);
  if (broken?.brokeOff != null) {
    const { atUtcMs, leftMs } = broken.brokeOff;
    const machine = built.request.machines[broken.machine];
    const why = `${opWord(broken.asked.op)} broke off ${dayTime(atUtcMs, clock)} with ${hoursWord(leftMs)} to do, when ${machine?.name ?? machine?.id} went away`;
    return { why };
  }
  const held = heldInTheWay(built, f);
  if (held !== null) {
    const works = listWords(held.undone.map(opWord));
    const none = held.undone.length === 1 ? "finds no place" : "find no place";
    return {
      why: `${heldWords(built, held)}, and ${works} ${none} before it`,
      customerWhy: NO_TIME,
    };
  }
  const own = notInWindow(built, f);
  if (own !== null) return typeof own === "string" ? { why: own } : own;
  if (placeAlone(grid, f) === null) return tooLate(built, f) ?? notAlone(built, f);
  return whyTaken(built, jobs, f, ifThere);
}

/** Of a field that could be brought in, were it worth it: what being late, or moving its visits, costs is more than it brings. */
function tooLate(built: BuiltCrew, f: number): Reason | null {
  const { grid, request } = built;
  if (placeAlone(withoutCosts(grid, f), f) === null) return null;
  const due = request.fields[f]?.dueUtc;
  const since = due == null ? "" : ` (due ${dayTime(Date.parse(due), spokenClock(built))})`;
  return { why: `serving it would cost more in lateness${since} than it brings`, customerWhy: NO_TIME };
}

/** What weather, ground, light and the mowing hour forbid, whoever is there; work by work. */
function notInWindow(built: BuiltCrew, f: number): Reason | string | null {
  const { grid } = built;
  const clock = spokenClock(built);
  const field = grid.fields[f] as GridField;
  const mow = field.tasks[0];
  const held = mow?.fixed ?? null;
  const never = (task: GridTask) => task.openUntil.every((end, t) => end <= t || t < grid.nowSlot);
  for (const [i, task] of field.tasks.entries()) {
    if (task.fixed !== null) {
      const undone = field.tasks.slice(0, i).find((one) => one.fixed === null);
      // What is done cannot come before what must come first.
      if (undone !== undefined && task.fixed.start < grid.nowSlot) {
        const at = dayTime(task.fixed.moments?.fromUtcMs ?? slotUtcMs(grid, task.fixed.start), clock);
        const first = opWord(undone.op);
        return {
          why: `${opWord(task.op)} is held at ${at}, and ${first} before it is not; hold ${first} too if it is done`,
          customerWhy: NO_TIME,
        };
      }
      continue;
    }
    const { op } = task;
    const work = opWord(op);
    const slots = leastSlots(task);
    const takes = `${work} takes ${hoursWord(slots * grid.slotMs)}`;
    if (!isAnyoneAhead(grid)) return { why: "nobody is at work in these days", customerWhy: NOBODY };
    if (slots > longestFree(grid))
      return {
        why: `${takes}, longer than anyone works at a stretch, so split the field`,
        customerWhy: NO_TIME,
      };
    if (i === 0 && never(task)) return `no hour of these days is dry and firm enough for ${work}`;
    const courses = held === null ? [] : coursesAt(field, middleSlot(held.start, held.end));
    const until = Math.max(-1, ...courses.map((course) => task.until?.[course] ?? -1));
    if (until >= 0 && until <= grid.nowSlot) {
      const closed = `its window for ${work} closed ${dayTime(slotUtcMs(grid, until), clock)}`;
      return { why: `${closed}; take ${work} out of its works if it is not needed`, customerWhy: closed };
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
    const { slots: longest, end } = longestWindow(grid, field, task);
    // A window that opens is some hours long: what leaves nothing of it is the dark.
    if (longest === 0) return `the crop is fit for ${work} only in the dark`;
    if (longest < slots) {
      const window = `its longest window for it is ${hoursWord(longest * grid.slotMs)}`;
      return isCutByEnd(grid, task)
        ? `${takes}, but ${endOfSight(built)}, and ${window}`
        : `${takes}, but ${window}${rainWords(built, f, end)}`;
    }
  }
  return neverTogether(built, field);
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

/** Courses that the field may take: of every mowing hour, or of the one that is held. */
function coursesOf(field: GridField): readonly number[] {
  const mow = field.tasks[0]?.fixed;
  if (mow != null) return coursesAt(field, middleSlot(mow.start, mow.end));
  return [...field.mowGain.keys()];
}

/** A stretch of slots, by its length and end. */
interface Stretch {
  readonly slots: number;
  readonly end: number;
}

/** The longest stretch that a course leaves for a work. */
function longestIn(grid: Grid, { ready, until, openUntil }: GridTask, course: number): Stretch {
  const opens = ready === null ? 0 : (ready[course] as number);
  const closes = opens < 0 ? -1 : until === null ? grid.count : (until[course] as number);
  let longest: Stretch = { slots: 0, end: 0 };
  for (let t = Math.max(grid.nowSlot, opens); t < closes; t++) {
    const end = Math.min(closes, openUntil[t] as number);
    if (end - t > longest.slots) longest = { slots: end - t, end };
  }
  return longest;
}

/** The longest stretch that any mowing hour leaves for a work. */
function longestWindow(grid: Grid, field: GridField, task: GridTask): Stretch {
  const courses = task.ready === null ? [0] : coursesOf(field);
  return courses
    .map((course) => longestIn(grid, task, course))
    .reduce((most, one) => (one.slots > most.slots ? one : most), { slots: 0, end: 0 });
}

/** Of works that each fit after some mowing those that after no mowing all do; null where some mowing leaves time for all. */
function neverTogether({ grid, request }: BuiltCrew, field: GridField): string | null {
  const works = field.tasks.filter(({ fixed, ready }) => fixed === null && ready !== null);
  const short = new Set<GridTask>();
  for (const course of coursesOf(field)) {
    if (!works.every(({ ready }) => (ready?.[course] ?? -1) >= 0)) continue;
    const own = works.filter((task) => longestIn(grid, task, course).slots < leastSlots(task));
    if (own.length === 0) return null;
    for (const task of own) short.add(task);
  }
  const words = works.filter((task) => short.has(task)).map(({ op }) => opWord(op));
  if (words.length < 2) return null;
  const all = words.length === 2 ? "both" : "all";
  const byDay = isByDayOnly(request) ? " by day" : "";
  const mown = field.tasks[0]?.fixed == null ? "whenever it is mown" : "after its mowing";
  return `${mown}, ${listWords(words)} are not ${all} possible${byDay} for as long as they take`;
}

function isCutByEnd(grid: Grid, task: GridTask): boolean {
  return (task.openUntil[grid.count - 1] as number) === grid.count;
}
