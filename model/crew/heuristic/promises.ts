import { courseOf, type Grid, type GridField, type GridJob } from "../grid.ts";
import { jobsOfField, servedValue } from "../value.ts";
import { removeField, takePlace } from "./insert.ts";
import { fits, machineFits, personFor, type Schedule, scheduleOf } from "./schedule.ts";

/** Visits of the plan before: a plan as good that keeps more of them is the better one. */

const MOST_PASSES = 3;

/** Works of a field that are not at the hour that was promised. */
export function movedOf(field: GridField, own: readonly GridJob[]): number[] {
  return field.tasks.flatMap(({ before, fixed }, i) =>
    before !== null && fixed === null && own[i]?.start !== before ? [i] : [],
  );
}

/** Every choice of some of them, the largest first. */
export function choicesOf(list: readonly number[]): (readonly number[])[] {
  const all = Array.from({ length: 2 ** list.length - 1 }, (_, bits) =>
    list.filter((_, i) => ((bits + 1) >> i) & 1),
  );
  return all.sort((a, b) => b.length - a.length);
}

/**
 * The jobs of a field with some works back at their promised hours; null where that cannot be.
 *
 * @param schedule what everybody does, without the field
 */
export function withBack(
  grid: Grid,
  schedule: Schedule,
  f: number,
  own: readonly GridJob[],
  back: readonly number[],
): GridJob[] | null {
  const field = grid.fields[f] as GridField;
  const jobs: GridJob[] = [];
  for (const [i, job] of own.entries()) {
    const at = back.includes(i) ? placedBack(grid, schedule, field, job) : job;
    if (at === null) return null;
    jobs.push(at);
  }
  return isChain(field, jobs) ? jobs : null;
}

function placedBack(grid: Grid, schedule: Schedule, field: GridField, job: GridJob): GridJob | null {
  const task = field.tasks[job.task];
  const start = task?.before ?? null;
  if (task === undefined || start === null || start < grid.nowSlot || start >= grid.count) return null;
  const machines = [job.machine, ...grid.machines.keys()];
  for (const machine of machines) {
    const slots = task.slotsOf[machine] as number;
    const end = start + slots;
    if (slots === 0 || end > (task.openUntil[start] as number)) continue;
    if ((grid.machines[machine]?.freeUntil[start] as number) < end) continue;
    if (!machineFits(grid, schedule, machine, start, end, field.site)) continue;
    const isSame =
      (grid.people[job.person]?.freeUntil[start] as number) >= end &&
      fits(grid, schedule.taken.people[job.person], start, end, field.site);
    const person = isSame ? job.person : personFor(grid, schedule, start, end, field.site);
    if (person >= 0) return { ...job, machine, person, start, end };
  }
  return null;
}

/** One work after the other, each in the window that the mowing opens and soon enough after the one before. */
export function isChain(field: GridField, jobs: readonly GridJob[]): boolean {
  const course = courseOf(field, jobs);
  return field.tasks.every(({ fixed, ready, until, lagSlots }, i) => {
    const job = jobs[i] as GridJob;
    const before = jobs[i - 1];
    const bothHeld = fixed !== null && field.tasks[i - 1]?.fixed != null;
    if (before !== undefined && !bothHeld && before.end > job.start) return false;
    if (fixed !== null) return true;
    if (before !== undefined && lagSlots !== null && job.start > before.end + lagSlots) return false;
    if (ready === null || until === null) return true;
    const opens = ready[course] as number;
    return opens >= 0 && job.start >= opens && job.end <= (until[course] as number);
  });
}

/** The plan with every visit back at its promised hour that can be, where the plan is worth no less for it. */
export function promisesKept(grid: Grid, planned: readonly GridJob[]): readonly GridJob[] {
  if (!grid.fields.some(({ tasks }) => tasks.some(({ before }) => before !== null))) return planned;
  const served = grid.fields.map((field, f) => jobsOfField(field, f, planned));
  const schedule = scheduleOf(grid, planned);
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    let better = false;
    grid.fields.forEach((field, f) => {
      const own = served[f];
      if (own == null) return;
      const moved = movedOf(field, own);
      if (moved.length === 0) return;
      removeField(grid, schedule, f);
      const value = servedValue(field, own);
      const found = choicesOf(moved)
        .map((back) => withBack(grid, schedule, f, own, back))
        .find((jobs) => jobs !== null && servedValue(field, jobs) > value + 1e-9);
      if (found != null) {
        served[f] = found;
        better = true;
      }
      const now = served[f] ?? own;
      takePlace(grid, schedule, { jobs: now, value: servedValue(field, now) });
    });
    if (!better) break;
  }
  return served.flatMap((own) => own ?? []);
}
