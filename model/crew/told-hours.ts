import type { SweepCourse } from "../drying/course.ts";
import type { Operation } from "../drying/operations.ts";
import { fitStretches } from "../harvest/spans.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import type { CrewOp } from "./keys.ts";
import type { CrewFieldRequest } from "./request.ts";
import { verdictOf } from "./verdict.ts";
import { bandOfOp } from "./windows/band.ts";
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

/** Hours of tedding are told so far apart, and in so many stretches of fit hours: one that comes later is of no use. */
const TED_STEP_H = 3;
const MOST_TEDDING_RUNS = 2;
/** Courses of one mowing that the plan may choose among. */
const MOST_COURSES = 3;

/**
 * The courses of one mowing of which the replay itself finds enough members dry, whatever the usual hours of tedding and
 * raking: each stretch of hours fit for tedding is tried from its beginning on in steps, and every hour fit for raking from
 * which the swath would get dry in time; the crop that follows is dried with them, and the hours of gathering are those at
 * which so many members find it dry, on ground that carries, and half of them no drier than the band.
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
  const { frame, passes, gather } = told;
  const middleUtcMs = (slot: number, { least }: OpenWork) =>
    frame.startUtcMs + (slot + least / 2) * frame.slotMs;
  const coursesWith = (operations: readonly Operation[]) => {
    counted.courses += told.members.length;
    return told.members.map((member) => member.course(cutUtcMs, operations));
  };
  const follow = (operations: readonly Operation[], earliest: number, spans: ToldCourse): ToldCourse[] => {
    const pass = passes[spans.length];
    if (pass === undefined) {
      const starts = startsOf(gather, Math.max(gather.from, earliest), frame.count - gather.least);
      const run = longestOf(told, takings(told, cutUtcMs, operations, starts, counted));
      return run === null ? [] : [[...spans, run]];
    }
    const courses = coursesWith(operations);
    const first = Math.max(pass.from, earliest);
    const fit = fitStarts(told, pass, courses, cutUtcMs, first);
    if (pass.op === "rake") {
      const dry = dryStarts(told, courses, startsOf(gather, first + pass.least, frame.count - gather.least));
      return rakingsAt(told, pass, fit, dry, (raked, starts) => {
        const atUtcMs = middleUtcMs(raked, pass);
        const made = [...operations, { kind: "rake", atUtcMs, coveredFraction: null } as const];
        return longestOf(told, takings(told, cutUtcMs, made, starts, counted));
      }).map((windows) => [...spans, ...windows]);
    }
    const stepSlots = Math.max(1, Math.round((TED_STEP_H * HOUR_MS) / frame.slotMs));
    return teddings(pass, fit, stepSlots).flatMap((window) => {
      const atUtcMs = middleUtcMs(window.ready, pass);
      const made = [...operations, { kind: "ted", atUtcMs, coveredFraction: null } as const];
      return follow(made, window.ready + pass.least, [...spans, window]);
    });
  };
  const held = told.held.filter(({ atUtcMs }) => atUtcMs > cutUtcMs);
  return apart(follow(held, from, []), passes, gather);
}

function lengthOf(window: SlotWindow | null | undefined): number {
  return window == null ? 0 : window.until - window.ready;
}

function isManned({ manned }: OpenWork, from: number, to: number): boolean {
  return manned.subarray(from, to).includes(1);
}

/** Slots from one to another in which a work may start by light. */
function startsOf({ lit }: OpenWork, from: number, to: number): readonly number[] {
  const starts: number[] = [];
  for (let t = from; t <= to; t++) if (lit[t] === 1) starts.push(t);
  return starts;
}

/** Slots in which a pass may start with enough members fit for it throughout; as the windows at usual hours are read. */
function fitStarts(
  { field, members, frame, need }: ToldField,
  pass: OpenWork,
  courses: readonly SweepCourse[],
  cutUtcMs: number,
  from: number,
): readonly number[] {
  const asked = bandOfOp(pass.op, field);
  const [ready, inBand] = [new Uint16Array(frame.count), new Uint16Array(frame.count)];
  const afterMs = pass.op === "ted" ? cutUtcMs + CREW_DEFAULTS.tedAfterMowH.value * HOUR_MS : cutUtcMs;
  members.forEach((member, i) => {
    const course = courses[i];
    if (asked === null || course === undefined) return;
    const track = member.track(course);
    countSlots(frame, fitStretches(track, [0, asked.bandWb[1]], asked.conditions), afterMs, ready);
    countSlots(frame, fitStretches(track, asked.bandWb, asked.conditions), afterMs, inBand);
  });
  const unfit = ready.map((count, t) =>
    count >= need && 2 * (inBand[t] as number) >= members.length ? 0 : 1,
  );
  const starts = startsOf(pass, from, frame.count - pass.least);
  return starts.filter((t) => !unfit.subarray(t, t + pass.least).includes(1));
}

/** Windows of a tedding: the hours behind the first of each stretch in which it may lie, and behind others in steps after it. */
function teddings(pass: OpenWork, fit: readonly number[], stepSlots: number): readonly SlotWindow[] {
  return stretchesOf(fit)
    .slice(0, MOST_TEDDING_RUNS)
    .flatMap(([first, last]) =>
      Array.from({ length: Math.floor((last - first) / stepSlots) + 1 }, (_, i) => {
        const ready = first + i * stepSlots;
        return { ready, until: Math.min(last + pass.least, ready + stepSlots - 1 + pass.most) };
      }),
    )
    .filter(({ ready, until }) => isManned(pass, ready, until - pass.least + 1));
}

/**
 * Rakings with the stretch of hours in which their windrow is taken: of each stretch of hours after which one is, the hour
 * with the longest. A windrow dries no faster than the swath: no hour is tried behind which the swath itself stays wet.
 *
 * @param dry slots at which the swath could be taken if it were not raked
 */
function rakingsAt(
  { gather, frame }: ToldField,
  pass: OpenWork,
  fit: readonly number[],
  dry: readonly number[],
  taken: (raked: number, starts: readonly number[]) => SlotWindow | null,
): readonly (readonly [SlotWindow, SlotWindow])[] {
  const found = new Map<number, SlotWindow>();
  for (const raked of fit) {
    if (!isManned(pass, raked, raked + 1)) continue;
    const from = Math.max(gather.from, raked + pass.least);
    const to = gather.lagSlots === null ? frame.count : raked + pass.most + gather.lagSlots;
    const starts = dry.filter((t) => t >= from && t <= to);
    const run = starts.length === 0 ? null : taken(raked, starts);
    if (run !== null) found.set(raked, run);
  }
  return stretchesOf([...found.keys()]).map(([first, last]) => {
    let best = first;
    for (let raked = first; raked <= last; raked++) {
      if (lengthOf(found.get(raked)) > lengthOf(found.get(best))) best = raked;
    }
    return [{ ready: best, until: last + pass.least }, found.get(best) as SlotWindow];
  });
}

/** First and last of each stretch of slots, one behind the other. */
function stretchesOf(slots: readonly number[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const t of slots) {
    const run = runs.at(-1);
    if (run?.[1] === t - 1) run[1] = t;
    else runs.push([t, t]);
  }
  return runs;
}

/** What a member says of a gathering, by the slot in which it starts. */
function judgeOf({ field, frame, gather }: ToldField, member: MemberSwath, course: SweepCourse) {
  const verdict = verdictOf(field, member, course);
  return (start: number) => {
    const fromUtcMs = frame.startUtcMs + start * frame.slotMs;
    return verdict({ fromUtcMs, toUtcMs: fromUtcMs + gather.least * frame.slotMs });
  };
}

/** Of some slots those at which enough members would take the swath as it lies. */
function dryStarts(
  told: ToldField,
  courses: readonly SweepCourse[],
  starts: readonly number[],
): readonly number[] {
  const judges = told.members.flatMap((member, i) => {
    const course = courses[i];
    return course === undefined ? [] : [judgeOf(told, member, course)];
  });
  return starts.filter((t) => judges.filter((judge) => judge(t).isFit).length >= told.need);
}

/** Stretches of hours at which the crop is taken dry in enough members, each as far as the last taking in it ends. */
function takings(
  told: ToldField,
  cutUtcMs: number,
  operations: readonly Operation[],
  starts: readonly number[],
  counted: { courses: number },
): readonly SlotWindow[] {
  const { members, need, gather } = told;
  let alive = starts.map((t) => ({ t, unfit: 0, tooDry: 0 }));
  for (const member of members) {
    if (alive.length === 0) return [];
    counted.courses++;
    const judge = judgeOf(told, member, member.course(cutUtcMs, operations));
    alive = alive
      .map(({ t, unfit, tooDry }) => {
        const { isFit, isTooDry } = judge(t);
        return { t, unfit: unfit + (isFit ? 0 : 1), tooDry: tooDry + (isTooDry ? 1 : 0) };
      })
      .filter(({ unfit, tooDry }) => unfit <= members.length - need && 2 * tooDry <= members.length);
  }
  return stretchesOf(alive.map(({ t }) => t)).map(([ready, last]) => ({ ready, until: last + gather.least }));
}

/** The longest stretch in which somebody with a machine is there to take the crop. */
function longestOf({ gather }: ToldField, runs: readonly SlotWindow[]): SlotWindow | null {
  return runs
    .filter(({ ready, until }) => isManned(gather, ready, until - gather.least + 1))
    .reduce<SlotWindow | null>((best, run) => (lengthOf(run) > lengthOf(best) ? run : best), null);
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
  const takenFor = (course: ToldCourse) => lengthOf(course.at(-1));
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
    .filter((course) => lengthOf(course[key]) >= least)
    .sort((a, b) => takenAt(a) - takenAt(b));
}
