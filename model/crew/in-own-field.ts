import type { BuiltCrew } from "./build-grid.ts";
import { expectedKept } from "./expected.ts";
import { coursesAt, type GridField, type GridJob, middleSlot, slotUtcMs } from "./grid.ts";
import { isChain, withBack } from "./heuristic/promises.ts";
import { scheduleOf } from "./heuristic/schedule.ts";
import type { Cause, Visit } from "./reason.ts";
import { gridJobs } from "./rules-of.ts";
import { jobsOfField, keptShare } from "./value.ts";
import { dayTime, opWord, spokenClock } from "./words.ts";

/** An hour that could be kept but for the works beside it, or for what is brought in. */

/** The work before it that ends later now than this one was to begin. */
export function endsLater(
  { grid }: BuiltCrew,
  jobs: readonly GridJob[],
  { field: f, task, start }: Visit & Pick<GridJob, "start">,
): Cause | null {
  const last = jobs.find((job) => job.field === f && job.task === task - 1);
  if (last === undefined || start >= last.end) return null;
  const word = opWord(grid.fields[f]?.tasks[task - 1]?.op ?? "mow");
  return { why: `${word} before it ends later`, of: [{ field: f, task: task - 1 }] };
}

/** The work after the mowing that keeps its hour, where that would lie in no window of the mowing as it was promised. */
export function nextWouldNotDo(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  { field: f, task, start, end }: Visit & Pick<GridJob, "start" | "end">,
): Cause | null {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const next = jobs.find((job) => job.field === f && job.task === 1);
  const own = field.tasks[1];
  if (task !== 0 || next === undefined || own === undefined) return null;
  const { op, before, fixed, ready, until } = own;
  if (fixed !== null || ready === null || until === null || before !== next.start) return null;
  const isIn = (course: number) =>
    (ready[course] ?? -1) >= 0 && next.start >= (ready[course] ?? 0) && next.end <= (until[course] ?? 0);
  if (coursesAt(field, middleSlot(start, end)).some(isIn)) return null;
  const at = dayTime(slotUtcMs(grid, next.start), spokenClock(built));
  return { why: `mown as promised, ${opWord(op)} on ${at} would lie outside its window` };
}

/** The works of a field with one at the hour that was promised, or all that moved; null where others leave no room for them. */
export function putBack(
  { grid }: BuiltCrew,
  jobs: readonly GridJob[],
  { field: f, task }: Visit,
): readonly GridJob[] | null {
  const field = grid.fields[f] as GridField;
  const own = jobsOfField(field, f, jobs);
  if (own === null) return null;
  const schedule = scheduleOf(
    grid,
    jobs.filter((job) => job.field !== f),
  );
  const moved = field.tasks.flatMap(({ before, fixed }, i) =>
    fixed === null && before !== null && own[i]?.start !== before ? [i] : [],
  );
  return withBack(grid, schedule, f, own, [task]) ?? withBack(grid, schedule, f, own, moved);
}

/** That more of the crop is kept, or it is finished sooner, and the work behind it that must follow soon. */
export function* forItsOwn(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  visit: Visit & Pick<GridJob, "end">,
): Generator<Cause> {
  const { grid } = built;
  const { field: f, task, end } = visit;
  const field = grid.fields[f] as GridField;
  const own = jobsOfField(field, f, jobs);
  if (own === null) return;
  const back = putBack(built, jobs, visit);
  if (back !== null && expectedKept(built, f, own) > expectedKept(built, f, back) + 1e-9) {
    yield { why: "more of the crop is kept this way" };
  }
  // The plan goes by windows, though the replay may make no difference between the two.
  if (back !== null && keptShare(field, own) > keptShare(field, back) + 1e-9) {
    yield { why: "by its windows more of the crop is kept this way" };
  }
  const lateOf = (jobs: readonly GridJob[]) => field.lateCost[jobs.at(-1)?.end ?? 0] as number;
  if (back !== null && lateOf(own) < lateOf(back) - 1e-9) yield { why: "it is finished sooner this way" };
  const [next, lagSlots] = [own[task + 1], field.tasks[task + 1]?.lagSlots];
  if (next === undefined || field.tasks[task + 1]?.before === next.start) return;
  if (lagSlots != null && next.start > end + lagSlots) {
    const why = `${opWord(field.tasks[task + 1]?.op ?? "bale")} moves too, and must follow it soon`;
    yield { why, of: [{ field: f, task: task + 1 }] };
  }
}

/** Whether the plan keeps more of all fields than the plan before would, were nobody in the way of anybody in it. */
export function moreIsKept(built: BuiltCrew, jobs: readonly GridJob[]): boolean {
  const { grid, request } = built;
  const kept = (of: readonly GridJob[], isPossible: (own: readonly GridJob[], field: GridField) => boolean) =>
    grid.fields.reduce((sum, field, f) => {
      const own = jobsOfField(field, f, of);
      return own !== null && isPossible(own, field) ? sum + field.worth * expectedKept(built, f, own) : sum;
    }, 0);
  const before = gridJobs(built, request.previous?.jobs ?? []);
  const isPossible = (own: readonly GridJob[], field: GridField) =>
    isChain(field, own) &&
    own.every(({ task, start, end, machine, person }) => {
      const { fixed, openUntil } = field.tasks[task] as GridField["tasks"][number];
      if (fixed !== null) return true;
      const isThere = (of: typeof grid.people, k: number) => (of[k]?.freeUntil[start] as number) >= end;
      const isOpen = start >= grid.nowSlot && (openUntil[start] as number) >= end;
      return isOpen && isThere(grid.machines, machine) && isThere(grid.people, person);
    });
  return kept(jobs, () => true) > kept(before, isPossible) + 1e-9;
}
