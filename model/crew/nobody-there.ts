import { placeAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type Grid, type GridField, type GridJob, type GridTask, slotUtcMs } from "./grid.ts";
import { bestPlace, mowChoices } from "./heuristic/insert.ts";
import { fixedSchedule } from "./heuristic/schedule.ts";
import { alwaysThere } from "./variants.ts";
import { dayTime, opWord, spanTime, spokenClock } from "./words.ts";

/** A field that its machines could do, were somebody at work at all hours: which hours nobody works. */

/** How long somebody is at work from each slot on. */
function crewedUntil({ people, count }: Grid): Int32Array {
  return Int32Array.from({ length: count }, (_, t) =>
    Math.max(t, ...people.map(({ freeUntil }) => freeUntil[t] as number)),
  );
}

/** With machines and somebody at all hours, and the first works of a field only at hours at which somebody is at work. */
function inHours(grid: Grid, f: number, works: number): Grid {
  const until = crewedUntil(grid);
  const field = grid.fields[f] as GridField;
  const open = field.tasks.filter(({ fixed }) => fixed === null).map(({ op }) => op);
  const free = alwaysThere(grid, open, true);
  const tasks = (free.fields[f] as GridField).tasks.map(
    (task, i): GridTask =>
      i >= works || task.fixed !== null
        ? task
        : { ...task, openUntil: task.openUntil.map((end, t) => Math.min(end, until[t] as number)) },
  );
  return { ...free, fields: free.fields.map((one, at) => (at === f ? { ...one, tasks } : one)) };
}

interface NearMiss {
  readonly mow: GridJob;
  readonly job: GridJob;
  /** Slots of the work at which nobody is at work, or not the same one. */
  readonly slots: number;
  /** Which of its slots somebody has: none, the first ones, or others. */
  readonly crewed: "none" | "first" | "other";
}

/** Of all mowing hours the one whose work asks least of hours at which nobody works; the earliest of several. */
function nearest(grid: Grid, f: number, index: number): NearMiss | null {
  const until = crewedUntil(grid);
  const crewed = inHours(grid, f, index);
  const schedule = fixedSchedule(crewed);
  let best: NearMiss | null = null;
  for (const choice of [...mowChoices(crewed, f)].sort((a, b) => a.start - b.start)) {
    const jobs = bestPlace(crewed, schedule, f, [choice])?.jobs ?? [];
    const [mow, job] = [jobs[0], jobs[index]];
    if (mow === undefined || job === undefined) continue;
    let longest = 0;
    for (let t = job.start; t < job.end; t++) {
      longest = Math.max(longest, Math.min(job.end, until[t] as number) - t);
    }
    const slots = job.end - job.start - longest;
    if (best !== null && slots >= best.slots) continue;
    const isFirst = until[job.start] === job.start + longest;
    best = { mow, job, slots, crewed: longest === 0 ? "none" : isFirst ? "first" : "other" };
  }
  return best;
}

/** True where somebody is at work for as long as a work takes in hours at which weather, ground and light allow it. */
function isEverDone(grid: Grid, { openUntil, slotsOf }: GridTask): boolean {
  const until = crewedUntil(grid);
  const slots = Math.min(...[...slotsOf].filter((some) => some > 0));
  return openUntil.some((end, t) => t >= grid.nowSlot && Math.min(end, until[t] as number) >= t + slots);
}

/**
 * "nobody is at work when baling is possible (nearest Sun 28 Jun 20:00 to 22:00)", or stays to its end, of the first work
 * that finds no place in working hours; null where each finds one.
 */
export function whyNobody(built: BuiltCrew, f: number): string | null {
  const { grid } = built;
  const { tasks } = grid.fields[f] as GridField;
  const isDone = (works: number) => placeAlone(inHours(grid, f, works), f) !== null;
  const index = tasks.findIndex(({ fixed }, i) => fixed === null && !isDone(i + 1));
  const task = tasks[index];
  const miss = task === undefined ? null : nearest(grid, f, index);
  if (task === undefined || miss === null) return null;
  const clock = spokenClock(built);
  const work = opWord(task.op);
  const when = spanTime(slotUtcMs(grid, miss.job.start), slotUtcMs(grid, miss.job.end), clock);
  // Mown in working hours it would be, but what follows would come too late, or too early.
  if (index === 0 && isEverDone(grid, task)) {
    return `whenever it is mown within working hours, its later works do not fit (nearest mowing that would do: ${when})`;
  }
  const nobody = {
    none: `nobody is at work when ${work} is possible`,
    first: `nobody stays to the end of ${work} when it is possible`,
    other: `nobody is at work for the whole of ${work} when it is possible`,
  }[miss.crewed];
  // A work that no working hour allows is not a matter of the mowing, nor is one of a field that is mown.
  return index === 0 || tasks[0]?.fixed !== null || !isEverDone(grid, task)
    ? `${nobody} (nearest ${when})`
    : `whenever it is mown, ${nobody} (nearest: mown ${dayTime(slotUtcMs(grid, miss.mow.start), clock)}, ${work} ${when})`;
}
