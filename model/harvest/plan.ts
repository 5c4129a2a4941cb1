import { COVER_AFTER, type Operation } from "../drying/operations.ts";
import { addDays, HOUR_MS, MINUTE_MS, utcOfLocal } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { OperationAnswer } from "./answer.ts";
import type { CutMoment } from "./options.ts";
import type { PlanStep } from "./request.ts";
import { daysFrom, type FarmClock, type Span } from "./work-hours.ts";

/** The day after the cut at a local hour; an hour that the clock skips is taken an hour later, one it doubles the first time. */
function morningAfter(clock: FarmClock, cutUtcMs: number, hour: number): number {
  const dayKey = addDays(clock.partsAt(cutUtcMs).dayKey, 1);
  const local = utcOfLocal(clock.zone, dayKey, hour);
  if (local.kind === "one") return local.utcMs;
  if (local.kind === "twice") return local.firstUtcMs;
  const later = utcOfLocal(clock.zone, dayKey, hour + 1);
  return later.kind === "one" ? later.utcMs : cutUtcMs + 24 * HOUR_MS;
}

/** A stretch of hours in whole minutes, so that the time the answer names is the time the course was run with. */
function wholeMinutesMs(hours: number): number {
  return Math.round(hours * 60) * MINUTE_MS;
}

/** The earliest that a step before this window lies, UTC ms: as its working day starts, and never before the cut. */
export function earliestBeforeWindowMs(cut: CutMoment, days: readonly Span[], windowStartMs: number): number {
  const day = days.find(({ startMs, endMs }) => windowStartMs >= startMs && windowStartMs < endMs);
  return Math.max(cut.courseCutUtcMs, day?.startMs ?? cut.courseCutUtcMs);
}

/**
 * When a step is done, UTC ms; null where that waits for a window, or falls before the cut or after the weather.
 * A step before a window lies inside the working day of that window's start: where the window opens with the day, the
 * step is the day's first work. It never comes before the cut itself.
 */
function momentOf(
  step: PlanStep,
  clock: FarmClock,
  cut: CutMoment,
  days: readonly Span[],
  windowStartMs: number | null,
): number | null {
  if (step.rule === "morning-after") return morningAfter(clock, cut.cutUtcMs, step.hour);
  if (step.rule === "after-cut") return cut.courseCutUtcMs + wholeMinutesMs(step.hours);
  if (step.rule === "before-window") {
    if (windowStartMs === null) return null;
    const earliestMs = earliestBeforeWindowMs(cut, days, windowStartMs);
    return Math.max(earliestMs, windowStartMs - wholeMinutesMs(step.hours));
  }
  return Math.floor(Date.parse(step.atUtc) / 1000) * 1000;
}

/**
 * The passes of a plan for one cut, in time order. Without a window the steps that wait for one are left out.
 * Steps that fall before the cut or at or after the end of the weather are left out too.
 */
export function planOperations(
  plan: readonly PlanStep[],
  clock: FarmClock,
  cut: CutMoment,
  days: readonly Span[],
  windowStartMs: number | null,
  endUtcMs: number,
): Operation[] {
  const operations: Operation[] = [];
  const tedMs = lastTedMs(plan, clock, cut, days, endUtcMs);
  for (const step of plan) {
    const atUtcMs = momentOf(step, clock, cut, days, windowStartMs);
    if (atUtcMs === null || atUtcMs < cut.courseCutUtcMs || atUtcMs >= endUtcMs) continue;
    if (isOvertaken(step, atUtcMs, tedMs)) continue;
    operations.push({ kind: step.kind, atUtcMs, coveredFraction: step.coveredFraction ?? null });
  }
  return operations.sort((a, b) => a.atUtcMs - b.atUtcMs);
}

/** The last tedding of a plan that waits for no window, UTC ms; -Infinity where none lies inside the weather. */
function lastTedMs(
  plan: readonly PlanStep[],
  clock: FarmClock,
  cut: CutMoment,
  days: readonly Span[],
  endUtcMs: number,
): number {
  let lastMs = Number.NEGATIVE_INFINITY;
  for (const step of plan) {
    const tedMs = step.kind === "ted" ? momentOf(step, clock, cut, days, null) : null;
    if (tedMs !== null && tedMs < endUtcMs) lastMs = Math.max(lastMs, tedMs);
  }
  return lastMs;
}

/**
 * True for a rake that waits for a window and would come before a tedding of the same plan: the window is there before
 * the swath is spread, so neither pass is needed for it.
 */
function isOvertaken(step: PlanStep, atUtcMs: number, tedMs: number): boolean {
  return step.rule === "before-window" && step.kind === "rake" && tedMs > atUtcMs;
}

/** True where a step can only be placed once a window is known. */
export function waitsForWindow(plan: readonly PlanStep[]): boolean {
  return plan.some((step) => step.rule === "before-window");
}

/**
 * The working days with what lies before the last step that was placed by its window taken off: the window that counts
 * starts no earlier than the step that prepares it.
 */
export function daysAfterSteps(
  plan: readonly PlanStep[],
  clock: FarmClock,
  cut: CutMoment,
  days: readonly Span[],
  windowStartMs: number,
  endUtcMs: number,
): readonly Span[] {
  const tedMs = lastTedMs(plan, clock, cut, days, endUtcMs);
  const moments = plan.flatMap((step) => {
    if (step.rule !== "before-window") return [];
    const atUtcMs = momentOf(step, clock, cut, days, windowStartMs) ?? windowStartMs;
    return isOvertaken(step, atUtcMs, tedMs) ? [] : [atUtcMs];
  });
  const fromMs = Math.max(cut.courseCutUtcMs, ...moments);
  return daysFrom(days, fromMs);
}

/** The passes as the answer lists them, each with the cover it leaves. */
export function operationAnswers(operations: readonly Operation[], startCover: number): OperationAnswer[] {
  let cover = startCover;
  return operations.map(({ kind, atUtcMs, coveredFraction }) => {
    if (coveredFraction !== null) cover = coveredFraction;
    else if (kind !== "invert") cover = COVER_AFTER[kind].value;
    return { kind, atUtc: utcLabel(atUtcMs), coveredFraction: cover };
  });
}
