import type { SweepCourse } from "../drying/course.ts";
import type { Operation } from "../drying/operations.ts";
import { fitStretches } from "../harvest/spans.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import type { CrewOp } from "./keys.ts";
import { hourAt, isTakenDry } from "./replay.ts";
import type { CrewFieldRequest } from "./request.ts";
import { bandOfOp, routeBand } from "./windows/band.ts";
import type { MemberSwath } from "./windows/member-swath.ts";
import { countSlots, type SlotFrame, type SlotWindow } from "./windows/runs.ts";

/** Windows read by the replay itself: of one mowing, with the hours of its tedding and raking told. */

/** A tedding, a raking or a gathering that is still to be planned. */
export interface OpenWork {
  readonly op: CrewOp;
  /** Slots that it takes at least, and with the slowest machine. */
  readonly least: number;
  readonly most: number;
  /** It starts in this slot or later: new work, behind what is held. */
  readonly from: number;
  /** 1 where it may start by light. */
  readonly lit: Uint8Array;
  /** 1 where somebody with a machine may start it. */
  readonly manned: Uint8Array;
  /** It starts at most so many slots after the end of the one before; null = any time. */
  readonly lagSlots: number | null;
}

/** What is asked of a field: its works in their order, the last of which takes the crop. */
export interface ToldField {
  readonly field: CrewFieldRequest;
  readonly members: readonly MemberSwath[];
  readonly frame: SlotFrame;
  /** So many members must find it dry. */
  readonly need: number;
  readonly passes: readonly OpenWork[];
  readonly gather: OpenWork;
  /** Tedding and raking that are held, at their own hours. */
  readonly held: readonly Operation[];
}

/** One course of a mowing: the windows of the passes that are still to be planned, and then of the gathering. */
export type ToldCourse = readonly SlotWindow[];

/** Hours of a pass are told so far apart, and in so many stretches of fit hours at most: a tedding that comes later is of no use. */
const PASS_STEP_H = 3;
const MOST_TEDDING_RUNS = 2;
const MOST_RAKING_RUNS = 3;
/** Courses of one mowing that the plan may choose among. */
const MOST_COURSES = 3;

/**
 * The courses of one mowing of which the replay itself finds enough members dry, whatever the usual hours of tedding and
 * raking: each stretch of hours fit for a pass is tried from its beginning on in steps, the crop that follows is dried with
 * it, and the hours of gathering are those at which so many members find it dry, on ground that carries, and half of them
 * no drier than the band.
 *
 * @param cutUtcMs middle of the mowing
 * @param from slot after the mowing
 * @param counted counts the courses that were followed
 */
export function toldCourses(
  told: ToldField,
  cutUtcMs: number,
  from: number,
  counted: { courses: number },
): readonly ToldCourse[] {
  const { field, frame, members, passes, gather, need } = told;
  const stepSlots = Math.max(1, Math.round((PASS_STEP_H * HOUR_MS) / frame.slotMs));
  const found: ToldCourse[] = [];
  const follow = (operations: readonly Operation[], earliest: number, spans: ToldCourse) => {
    const pass = passes[spans.length];
    if (pass === undefined) {
      const before = spans.at(-1)?.until ?? earliest;
      const latest = gather.lagSlots === null ? frame.count : before + gather.lagSlots;
      const taken = takings(told, cutUtcMs, operations, Math.max(gather.from, earliest), latest, counted);
      const longest = taken.reduce<SlotWindow | null>(
        (best, run) => (best === null || lengthOf(run) > lengthOf(best) ? run : best),
        null,
      );
      if (longest !== null) found.push([...spans, longest]);
      return;
    }
    const courses = members.map((member) => member.course(cutUtcMs, operations));
    counted.courses += courses.length;
    const fit = fitSlots(field, pass.op, members, courses, frame, cutUtcMs, need);
    for (const { ready, until } of steps(pass, fit, Math.max(pass.from, earliest), stepSlots)) {
      if (!isManned(pass, ready, until - pass.least + 1)) continue;
      // Raked later than reckoned with, the crop is drier; the plan that is found is held against the replay again.
      const atUtcMs = frame.startUtcMs + (ready + pass.least / 2) * frame.slotMs;
      const kind = pass.op === "ted" ? "ted" : "rake";
      const made = [...operations, { kind, atUtcMs, coveredFraction: null } as const];
      follow(made, ready + pass.least, [...spans, { ready, until }]);
    }
  };
  follow(
    told.held.filter(({ atUtcMs }) => atUtcMs > cutUtcMs),
    from,
    [],
  );
  return apart(found, passes, gather);
}

function lengthOf({ ready, until }: SlotWindow): number {
  return until - ready;
}

function isManned({ manned }: OpenWork, from: number, to: number): boolean {
  return manned.subarray(from, to).includes(1);
}

/** Slots in which enough members have the crop fit for a pass; as the windows at usual hours are read. */
function fitSlots(
  field: CrewFieldRequest,
  op: CrewOp,
  members: readonly MemberSwath[],
  courses: readonly SweepCourse[],
  frame: SlotFrame,
  cutUtcMs: number,
  need: number,
): Uint8Array {
  const asked = bandOfOp(op, field);
  const [ready, inBand] = [new Uint16Array(frame.count), new Uint16Array(frame.count)];
  const afterMs = op === "ted" ? cutUtcMs + CREW_DEFAULTS.tedAfterMowH.value * HOUR_MS : cutUtcMs;
  members.forEach((member, i) => {
    const course = courses[i];
    if (asked === null || course === undefined) return;
    const track = member.track(course);
    countSlots(frame, fitStretches(track, [0, asked.bandWb[1]], asked.conditions), afterMs, ready);
    countSlots(frame, fitStretches(track, asked.bandWb, asked.conditions), afterMs, inBand);
  });
  return Uint8Array.from(ready, (count, t) =>
    count >= need && 2 * (inBand[t] as number) >= members.length ? 1 : 0,
  );
}

/** Windows of a pass: the hours behind the first of each stretch in which it may lie, and behind others in steps after it. */
function steps(
  { op, lit, least, most }: OpenWork,
  fit: Uint8Array,
  from: number,
  stepSlots: number,
): readonly SlotWindow[] {
  const mostRuns = op === "ted" ? MOST_TEDDING_RUNS : MOST_RAKING_RUNS;
  const runs: { first: number; last: number }[] = [];
  for (let t = from; t + least <= fit.length; t++) {
    if (lit[t] === 0 || fit.subarray(t, t + least).includes(0)) continue;
    const run = runs.at(-1);
    if (run?.last === t - 1) run.last = t;
    else if (runs.length === mostRuns) break;
    else runs.push({ first: t, last: t });
  }
  return runs.flatMap(({ first, last }) =>
    Array.from({ length: Math.floor((last - first) / stepSlots) + 1 }, (_, i) => {
      const ready = first + i * stepSlots;
      return { ready, until: Math.min(last + least, ready + stepSlots - 1 + most) };
    }),
  );
}

/** Stretches of hours at which the crop is taken dry in enough members, each as far as the last taking in it ends. */
function takings(
  { field, members, frame, need, gather }: ToldField,
  cutUtcMs: number,
  operations: readonly Operation[],
  from: number,
  latest: number,
  counted: { courses: number },
): readonly SlotWindow[] {
  const [lowestWb, topWb] = routeBand(field);
  const utcMs = (slot: number) => frame.startUtcMs + slot * frame.slotMs;
  let alive: number[] = [];
  for (let t = from; t <= latest && t + gather.least <= frame.count; t++)
    if (gather.lit[t] === 1) alive.push(t);
  const wet = new Uint16Array(frame.count);
  const tooDry = new Uint16Array(frame.count);
  for (const member of members) {
    if (alive.length === 0) return [];
    const course = member.course(cutUtcMs, operations);
    const { soilFit } = member.track(course);
    counted.courses++;
    for (const t of alive) {
      const span = { fromUtcMs: utcMs(t), toUtcMs: utcMs(t + gather.least) };
      const [first, last] = [hourAt(course, span.fromUtcMs), hourAt(course, span.toUtcMs)];
      const carries = !soilFit.subarray(first + 1, last + 1).includes(0);
      if (!carries || !isTakenDry(member, course, span, topWb)) wet[t] = (wet[t] as number) + 1;
      const driest = Math.min(course.moistureWb[first] as number, course.moistureWb[last] as number);
      if (driest < lowestWb) tooDry[t] = (tooDry[t] as number) + 1;
    }
    alive = alive.filter(
      (t) => (wet[t] as number) <= members.length - need && 2 * (tooDry[t] as number) <= members.length,
    );
  }
  const runs: { ready: number; until: number }[] = [];
  for (const t of alive) {
    const run = runs.at(-1);
    if (run?.until === t + gather.least - 1) run.until = t + gather.least;
    else runs.push({ ready: t, until: t + gather.least });
  }
  return runs.filter(({ ready, until }) => isManned(gather, ready, until - gather.least + 1));
}

/**
 * Those that stand for themselves, the earliest taken first: a plan is told by the hour of its raking, or of its gathering
 * where none is to be raked, which of them it follows, so that these hours may not overlap.
 */
function apart(
  courses: readonly ToldCourse[],
  passes: readonly OpenWork[],
  gather: OpenWork,
): readonly ToldCourse[] {
  const rake = passes.findIndex(({ op }) => op === "rake");
  const key = rake < 0 ? passes.length : rake;
  const { least } = passes[key] ?? gather;
  const takenAt = (course: ToldCourse) => course.at(-1)?.ready ?? 0;
  const takenFor = (course: ToldCourse) => lengthOf(course.at(-1) ?? { ready: 0, until: 0 });
  const ranked = [...courses].sort((a, b) => takenAt(a) - takenAt(b) || takenFor(b) - takenFor(a));
  const kept: ToldCourse[] = [];
  for (const course of ranked) {
    if (kept.length >= MOST_COURSES) break;
    if (!kept.some((other) => other[key]?.ready === course[key]?.ready)) kept.push(course);
  }
  kept.sort((a, b) => (a[key]?.ready ?? 0) - (b[key]?.ready ?? 0));
  return kept
    .map((course, i) => {
      const next = kept[i + 1]?.[key]?.ready ?? Number.POSITIVE_INFINITY;
      return course.map((span, at) =>
        at === key ? { ...span, until: Math.min(span.until, next + least - 1) } : span,
      );
    })
    .filter((course) => lengthOf(course[key] ?? { ready: 0, until: 0 }) >= least)
    .sort((a, b) => takenAt(a) - takenAt(b));
}
