import type { BuiltCrew } from "./build-grid.ts";
import { expectedKept } from "./expected.ts";
import { type GridField, type GridJob, type GridTask, slotUtcMs } from "./grid.ts";
import { isChain } from "./heuristic/promises.ts";
import { type PromisedHour, whoIsAway } from "./hour-lost.ts";
import type { Cause } from "./reason.ts";
import { jobsOfField } from "./value.ts";
import { dayTime, hoursWord, opWord, spanTime, spokenClock } from "./words.ts";

/** A window of a work, in slots. */
export interface OpenHours {
  readonly opens: number;
  readonly closes: number;
}

interface NotSooner {
  /** The first slot at which it could begin for crop and weather, as far as nothing else is told of those before. */
  readonly first: number;
  /** What keeps it from that hour; null where it is then, or nothing is known. */
  readonly why: Cause | null;
}

/** Why a work that can be done later than promised is not done as soon as that: when that is, and what keeps it. */
export function notSooner(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  hour: PromisedHour,
  now: GridJob,
  opens: number,
  windows: readonly OpenHours[],
): NotSooner {
  const { grid } = built;
  const { openUntil } = (grid.fields[f] as GridField).tasks[hour.task] as GridTask;
  const slots = hour.end - hour.start;
  const isFit = (t: number) =>
    (openUntil[t] as number) >= t + slots && windows.some((one) => t >= one.opens && t + slots <= one.closes);
  for (let t = Math.max(grid.nowSlot, opens); t < now.start; t++) {
    if (isFit(t)) return { first: t, why: whyNotThen(built, jobs, f, { ...hour, start: t, end: t + slots }) };
  }
  const window = Math.max(...windows.filter((one) => one.opens <= opens).map((one) => one.closes));
  const closes = Math.min(openUntil[opens] as number, window);
  if (closes <= opens || closes > now.start) return { first: now.start, why: null };
  const span = spanTime(slotUtcMs(grid, opens), slotUtcMs(grid, closes), spokenClock(built));
  const why = `${span} is too short for the ${hoursWord(slots * grid.slotMs)} it takes`;
  return { first: opens, why: { why } };
}

function whyNotThen(built: BuiltCrew, jobs: readonly GridJob[], f: number, then: PromisedHour): Cause | null {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const { task, start, end } = then;
  const said = (slot: number) => dayTime(slotUtcMs(grid, slot), spokenClock(built));
  const own = jobsOfField(field, f, jobs);
  const [last, next] = [own?.[task - 1], own?.[task + 1]];
  if (last !== undefined && last.end > start) {
    const word = opWord(field.tasks[task - 1]?.op ?? "mow");
    return { why: `${word} before it ends on ${said(last.end)}`, of: [{ field: f, task: task - 1 }] };
  }
  const away = whoIsAway(built, jobs, f, then);
  // The hour that is meant is not the one that was promised.
  if (away !== null) return { ...away, why: away.why.replace(/ at that hour$/, " then") };
  if (own === null) return null;
  const sooner = own.map((job, i) => (i === task ? { ...job, start, end } : job));
  if (next !== undefined && !isChain(field, sooner)) {
    const word = opWord(field.tasks[task + 1]?.op ?? "bale");
    const why = `${word} on ${said(next.start)} would not do after it then`;
    return { why, of: [{ field: f, task: task + 1 }] };
  }
  const isLess = expectedKept(built, f, sooner) < expectedKept(built, f, own) - 1e-9;
  return isLess ? { why: "more of it is kept later" } : null;
}
