import { HOUR_MS } from "../weather/clock.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { courseOf, type GridField, type GridJob, type GridTask, mowingOf, slotUtcMs } from "./grid.ts";
import { isPass } from "./keys.ts";
import { passesOf } from "./replay.ts";
import { crewJob } from "./rules-of.ts";
import { isTakenDry, isTakenTooDry } from "./taken-dry.ts";
import { jobsOfField } from "./value.ts";
import { routeBand } from "./windows/band.ts";
import { membersNeeded } from "./windows/fit-reader.ts";
import { shortSlotsOf, windowOf } from "./windows/runs.ts";

/** Openings no further apart than this hang on the same weather. */
const SAME_DAY_MS = 12 * HOUR_MS;

/** A task whose windows were read again, and the fields whose windows the plan's replay spoke against. */
export interface Reread {
  readonly built: BuiltCrew;
  readonly doubted: readonly string[];
}

/**
 * Windows held against the replay of a plan. They are read from a part of the members where those are many, and reckon with
 * tedding and raking at their usual hours; a plan may tell otherwise. A field that fewer members than its window was asked
 * for find dry, or more than half of them drier than its band, has the windows that open about that hour read again from every member, with the passes of the plan.
 *
 * @returns the task with those windows; null where the replay speaks against none
 */
export function reread(built: BuiltCrew, jobs: readonly GridJob[]): Reread | null {
  const { grid } = built;
  const again = grid.fields.map((field, f) => rereadField(built, field, f, jobs));
  const doubted = grid.fields.filter((_, f) => again[f] != null).map(({ id }) => id);
  if (doubted.length === 0) return null;
  const fields = grid.fields.map((field, f) => again[f] ?? field);
  const ids = [...new Set([...built.reread, ...doubted])];
  return { built: { ...built, grid: { ...grid, fields }, reread: ids }, doubted };
}

function rereadField(
  built: BuiltCrew,
  field: GridField,
  f: number,
  jobs: readonly GridJob[],
): GridField | null {
  const own = jobsOfField(field, f, jobs);
  const [mow, gather] = [own?.[0], own?.[field.gather]];
  const task = field.tasks[field.gather];
  if (own === null || mow === undefined || gather === undefined) return null;
  if (task === undefined || task.fixed !== null || task.ready === null || task.until === null) return null;
  const course = courseOf(field, own);
  const q = mowingOf(field, course);
  // Mown before its weather begins: nothing can be told of it.
  if (built.members[f]?.some(({ weather }) => slotUtcMs(built.grid, q) < weather.startUtcMs)) return null;
  const isDry = dryJudge(built, field, f, own, mow, gather);
  if (isDry(q)([gather.start])[0]) return null;

  const [ready, until] = [Int32Array.from(task.ready), Int32Array.from(task.until)];
  const mowGain = Float64Array.from(field.mowGain);
  const raking = field.tasks.find(({ op, fixed }) => op === "rake" && fixed === null)?.ready ?? null;
  const isNear = (slots: Int32Array, at: number) =>
    (slots[at] as number) >= 0 &&
    Math.abs((slots[at] as number) - (slots[course] as number)) * built.grid.slotMs <= SAME_DAY_MS;
  for (let at = 0; at < mowGain.length; at++) {
    if (!isNear(task.ready, at) || (raking !== null && !isNear(raking, at))) continue;
    const window = windowAgain(task, at, gather, isDry(mowingOf(field, at)), built.grid.slotMs);
    ready[at] = window?.ready ?? -1;
    until[at] = window?.until ?? -1;
    if (window === null) mowGain[at] = Number.NaN;
  }
  const tasks = field.tasks.map((one, i): GridTask => (i === field.gather ? { ...one, ready, until } : one));
  return { ...field, tasks, mowGain };
}

/**
 * Whether the crop that is mown at a slot and taken from others on, with the passes of the plan, is found dry in enough
 * members, and drier than its band in half of them at most; true before the passes are done, when nothing speaks against
 * the window.
 */
function dryJudge(
  built: BuiltCrew,
  field: GridField,
  f: number,
  own: readonly GridJob[],
  mow: GridJob,
  gather: GridJob,
) {
  const { grid, request } = built;
  const members = built.members[f] ?? [];
  const need = membersNeeded(members, request.readyShare ?? CREW_DEFAULTS.readyShare.value);
  const passes = passesOf(own.map((job) => crewJob(built, job)));
  const asked = request.fields[f];
  const [lowestWb, topWb] = asked === undefined ? [0, 1] : routeBand(asked);
  const passed = own.reduce(
    (end, job) => (isPass(field.tasks[job.task]?.op ?? "") ? Math.max(end, job.end) : end),
    0,
  );
  const half = ((mow.end - mow.start) % 2) * (grid.slotMs / 2);
  return (q: number) =>
    (starts: readonly number[]): readonly boolean[] => {
      const [dry, tooDry] = [starts.map(() => 0), starts.map(() => 0)];
      const cutUtcMs = slotUtcMs(grid, q) + half;
      const later = passes.filter(({ atUtcMs }) => atUtcMs > cutUtcMs);
      const lastMs = slotUtcMs(grid, Math.max(q, ...starts) + gather.end - gather.start);
      for (const member of members) {
        const course = member.course(cutUtcMs, later, lastMs);
        starts.forEach((start, i) => {
          const span = {
            fromUtcMs: slotUtcMs(grid, start),
            toUtcMs: slotUtcMs(grid, start + gather.end - gather.start),
          };
          if (isTakenDry(member, course, span, topWb)) dry[i] = (dry[i] as number) + 1;
          if (isTakenTooDry(course, span, lowestWb)) tooDry[i] = (tooDry[i] as number) + 1;
        });
      }
      return starts.map(
        (start, i) =>
          start < passed || ((dry[i] as number) >= need && 2 * (tooDry[i] as number) <= members.length),
      );
    };
}

/** What is left of the window of a mowing: slots in which a taking as long as the planned one may lie. */
function windowAgain(
  { ready, until, openUntil }: GridTask,
  course: number,
  gather: GridJob,
  isDry: (starts: readonly number[]) => readonly boolean[],
  slotMs: number,
) {
  const [from, to] = [ready?.[course] ?? 0, until?.[course] ?? 0];
  const length = gather.end - gather.start;
  const fit = new Uint8Array(openUntil.length);
  const open = Uint8Array.from(openUntil, (end, t) => (t >= from && t < to && end > t ? 1 : 0));
  const starts: number[] = [];
  for (let t = from; t + length <= to; t++) if ((openUntil[t] as number) >= t + length) starts.push(t);
  isDry(starts).forEach((dry, i) => {
    const start = starts[i] as number;
    if (dry) fit.fill(1, start, start + length);
  });
  return windowOf(fit, open, shortSlotsOf(slotMs));
}
