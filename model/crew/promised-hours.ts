import { fitStretches } from "../harvest/spans.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { type AskedDry, isDryAllTheSame } from "./dry-all-the-same.ts";
import {
  courseOf,
  type GridField,
  type GridJob,
  type GridTask,
  middleSlot,
  stretchEnds,
  waysOf,
} from "./grid.ts";
import { isByDayOnly, lightSlots } from "./grid-slots.ts";
import { isPass } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import { passesOf } from "./replay.ts";
import { crewJob } from "./rules-of.ts";
import { gainOf } from "./told-windows.ts";
import { bandOfOp } from "./windows/band.ts";
import { membersNeeded } from "./windows/fit-reader.ts";
import { countSlots } from "./windows/runs.ts";
import type { GainAt } from "./windows/usual.ts";

/**
 * Hours that were promised and lie in no window any more: with each work that is done, and with each new weather, windows
 * are read anew, from what was done and not from usual hours. Where the replay still finds the crop dry at the promised
 * hours, and no rain, dew or soft ground stands against the works before, they are as good as they were.
 */

/**
 * The task in which the promised hours of some fields are a course of their own, of those for which they will do.
 *
 * @param promised the plan before, in jobs of the grid
 * @param only places of the fields that are asked about
 * @param asked what the members must say of the crop; absent = what windows are read by
 * @returns null where they will do for none
 */
export function withPromisedHours(
  built: BuiltCrew,
  promised: readonly GridJob[],
  only: readonly number[],
  asked?: AskedDry,
): BuiltCrew | null {
  const { grid } = built;
  const found = new Map<number, GridField>();
  for (const f of only) {
    const field = grid.fields[f] as GridField;
    const own = promisedWorks(field, f, promised);
    if (own !== null && willDo(built, f, own, asked)) found.set(f, withCourse(field, own, gainOf(built, f)));
  }
  if (found.size === 0) return null;
  const fields = grid.fields.map((field, f) => found.get(f) ?? field);
  const ids = grid.fields.filter((_, f) => found.has(f)).map(({ id }) => id);
  return { ...built, grid: { ...grid, fields }, promised: [...new Set([...built.promised, ...ids])] };
}

/** Every work of a field, held or at its promised hour; null where one is neither. */
function promisedWorks(field: GridField, f: number, promised: readonly GridJob[]): readonly GridJob[] | null {
  const works = field.tasks.map(({ fixed }, task): GridJob | undefined =>
    fixed === null
      ? promised.find((job) => job.field === f && job.task === task)
      : { field: f, task, ...fixed },
  );
  const own = works.filter((job) => job !== undefined);
  return own.length === works.length ? own : null;
}

function willDo(built: BuiltCrew, f: number, own: readonly GridJob[], asked: AskedDry | undefined): boolean {
  const field = built.grid.fields[f] as GridField;
  const gather = field.tasks[field.gather];
  if (gather === undefined || gather.fixed !== null) return false;
  const moments = own.map((job) => crewJob(built, job));
  if (!isDryAllTheSame(built, field.id, moments, asked)) return false;
  const passes = own.filter(({ task: i }) => {
    const task = field.tasks[i];
    return task?.fixed === null && isPass(task.op);
  });
  return passes.every((job) => isPassPossible(built, f, job, moments));
}

/** Whether light, rain, dew and ground allow a pass in enough members, however moist the crop is. */
function isPassPossible(built: BuiltCrew, f: number, job: GridJob, own: readonly CrewJob[]): boolean {
  const { grid, request, sites } = built;
  const asked = request.fields[f];
  const site = sites[asked?.siteId ?? ""];
  const mow = own[0];
  const op = grid.fields[f]?.tasks[job.task]?.op;
  if (asked === undefined || site === undefined || mow === undefined || op === undefined) return false;
  const band = bandOfOp(op, asked);
  const lit = lightSlots(grid, site, isByDayOnly(request)).subarray(job.start, job.end);
  if (band === null || lit.includes(0)) return false;
  const members = built.members[f] ?? [];
  const cutUtcMs = (mow.startUtcMs + mow.endUtcMs) / 2;
  const counts = new Uint16Array(grid.count);
  for (const member of members) {
    const track = member.track(member.course(cutUtcMs, passesOf(own)));
    countSlots(grid, fitStretches(track, [0, 1], band.conditions), cutUtcMs, counts);
  }
  const need = membersNeeded(members, request.readyShare ?? CREW_DEFAULTS.readyShare.value);
  return counts.subarray(job.start, job.end).every((count) => count >= need);
}

/**
 * The field with one course more: these hours, and those behind them in the course that they would else be told by, counted
 * as such hours count that no usual window has. A pass that lies in that course opens with it, so that the gathering alone
 * tells the two apart, and no work of the one is read as work of the other.
 */
function withCourse(field: GridField, own: readonly GridJob[], gainAt: GainAt): GridField {
  const count = field.gatherCost.length;
  const ways = waysOf(field);
  const [mow, gather] = [own[0], own[field.gather]] as [GridJob, GridJob];
  const q = middleSlot(mow.start, mow.end);
  const at = ways * count + q;
  const like = courseOf(field, own);
  const mowGain = new Float64Array((ways + 1) * count).fill(Number.NaN);
  mowGain.set(field.mowGain);
  mowGain[at] = gainAt(q, gather.start);
  const tasks = field.tasks.map((task, i): GridTask => {
    if (task.ready === null || task.until === null) return task;
    const { start, end } = own[i] as GridJob;
    const longer = (slots: Int32Array, slot: number) => {
      const all = new Int32Array((ways + 1) * count).fill(-1);
      all.set(slots);
      all[at] = slot;
      return all;
    };
    const behind = (task.ready[like] as number) <= start ? (task.until[like] as number) : -1;
    const open = Uint8Array.from(task.openUntil, (to, t) => (to > t || (t >= start && t < end) ? 1 : 0));
    return {
      ...task,
      ready: longer(
        task.ready,
        task.fixed === null && isPass(task.op) && behind >= 0 ? (task.ready[like] as number) : start,
      ),
      until: longer(task.until, Math.max(end, behind)),
      openUntil: stretchEnds(open),
    };
  });
  return { ...field, mowGain, tasks };
}
