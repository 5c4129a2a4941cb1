import type { BuiltCrew } from "./build-grid.ts";
import { courseOf, type GridField, type GridJob, type GridTask } from "./grid.ts";
import { choicesOf, movedOf, withBack } from "./heuristic/promises.ts";
import { scheduleOf } from "./heuristic/schedule.ts";
import { fatesOf, meanKept } from "./replay.ts";
import { crewJob, rulesOf } from "./rules-of.ts";
import { CHAINS_TRIED, otherMowings, spread } from "./settle-mowing.ts";
import { planFaults } from "./validity.ts";
import { jobsOfField, keptShare, servedValue } from "./value.ts";
import type { MemberSwath } from "./windows/member-swath.ts";

/**
 * The planning objective does not tell one hour of a window from another, but the crop does: windows are read from the
 * swath as it lies before raking, and a windrow dries slower. So each field is put back at another mowing hour where more
 * is kept over the members for next to no value, and then each raking and each gathering is moved to the hour, of those
 * that cost the plan nothing, that keeps most.
 */

/** Courses that this may follow in all, but for the proof of each mowing that moves, and those of one field that it tells hours apart by. */
const MOST_COURSES = 9000;
const HOURS_TRIED = 12;
const FEWEST_MEMBERS = 4;
const MOST_MEMBERS = 12;
/** A smaller share of the crop is no reason to move a work. */
const LEAST_SHARE = 0.002;

/** Starts of the work in its own window and weather, between the works beside it. */
function startsOf(
  field: GridField,
  task: GridTask,
  job: GridJob,
  own: readonly GridJob[],
  count: number,
): readonly number[] {
  const length = job.end - job.start;
  const from = own[job.task - 1]?.end ?? 0;
  const to = (own[job.task + 1]?.start ?? count) - length;
  const course = courseOf(field, own);
  const ready = task.ready?.[course] ?? 0;
  const until = task.until?.[course] ?? count;
  const starts: number[] = [];
  for (let t = Math.max(from, ready); t <= Math.min(to, until - length); t++) {
    if (t !== job.start && (task.openUntil[t] as number) >= t + length) starts.push(t);
  }
  return spread(starts, HOURS_TRIED);
}

/**
 * The plan with whole fields put back at better mowing hours, for `givenForChance` of their value at most, and rakings and
 * gatherings at better hours of their windows.
 */
export function settled(
  built: BuiltCrew,
  planned: readonly GridJob[],
  stop: () => boolean,
): readonly GridJob[] {
  const { grid, request } = built;
  const rules = rulesOf(built);
  const share = Math.floor(
    MOST_COURSES / ((CHAINS_TRIED + 2 * HOURS_TRIED) * Math.max(1, grid.fields.length)),
  );
  const asked = Math.min(MOST_MEMBERS, Math.max(FEWEST_MEMBERS, share));
  let jobs = planned;
  const isPossible = (tried: readonly GridJob[]) =>
    planFaults(
      rules,
      tried.map((job) => crewJob(built, job)),
    ).length === 0;
  grid.fields.forEach((field: GridField, f) => {
    const wanted = request.fields[f];
    const all = built.members[f] ?? [];
    const step = Math.max(1, Math.floor(all.length / asked));
    const members = all.filter((_, i) => i % step === 0);
    const kept = (of: readonly GridJob[]) => {
      const own = of.filter((job) => job.field === f).map((job) => crewJob(built, job));
      const fates = wanted === undefined ? null : fatesOf(wanted, members, own);
      return fates === null ? Number.NEGATIVE_INFINITY : meanKept(fates);
    };
    const back = stop() ? null : promisedBack(built, f, jobs, isPossible);
    if (back !== null) jobs = back;
    const mown = stop() ? null : betterMown(built, f, jobs, members);
    if (mown !== null) {
      const tried = [...jobs.filter((job) => job.field !== f), ...mown];
      if (isPossible(tried)) jobs = tried;
    }
    for (const task of [field.gather, field.tasks.findIndex(({ op }) => op === "rake")]) {
      const of = field.tasks[task];
      const own = jobsOfField(field, f, jobs);
      const job = own?.[task];
      if (of === undefined || own === null || job === undefined || of.fixed !== null || stop()) continue;
      const value = servedValue(field, own);
      let best = { jobs, kept: kept(jobs) };
      for (const start of startsOf(field, of, job, own, grid.count)) {
        const moved = { ...job, start, end: start + job.end - job.start };
        const same = servedValue(
          field,
          own.map((one) => (one === job ? moved : one)),
        );
        if (Math.abs(same - value) > 1e-9 * Math.max(1, field.worth)) continue;
        const tried = jobs.map((one) => (one === job ? moved : one));
        if (!isPossible(tried)) continue;
        const share = kept(tried);
        if (share > best.kept + LEAST_SHARE) best = { jobs: tried, kept: share };
      }
      jobs = best.jobs;
    }
  });
  return [...jobs].sort((a, b) => a.start - b.start || a.field - b.field || a.task - b.task);
}

/**
 * The works of a field after the mowing hour that the replay expects most of, by some of its members and by all of them;
 * null where it expects no more, beyond the value that this gives up, than of those in the plan.
 */
function betterMown(
  built: BuiltCrew,
  f: number,
  jobs: readonly GridJob[],
  some: readonly MemberSwath[],
): readonly GridJob[] | null {
  const { grid, request, members } = built;
  const field = grid.fields[f] as GridField;
  const own = jobsOfField(field, f, jobs);
  if (own === null || request.fields[f] === undefined) return null;
  const expected = (chain: readonly GridJob[], of: readonly MemberSwath[]) => expectedOf(built, f, chain, of);
  const chains = otherMowings(grid, f, jobs, own);
  if (chains.length === 0) return null;
  const value = servedValue(field, own);
  const isBetter = (chain: readonly GridJob[], gain: number) =>
    gain > LEAST_SHARE * field.worth + Math.max(0, value - servedValue(field, chain));
  const now = expected(own, some);
  const [best] = chains
    .map((chain) => ({ chain, gain: expected(chain, some) - now }))
    .filter(({ chain, gain }) => isBetter(chain, gain))
    .sort((a, b) => b.gain - a.gain);
  if (best === undefined) return null;
  const all = members[f] ?? [];
  return isBetter(best.chain, expected(best.chain, all) - expected(own, all)) ? best.chain : null;
}

/** What the replay expects of these works of a field, by some of its members: lateness and moved visits taken off. */
function expectedOf(
  built: BuiltCrew,
  f: number,
  chain: readonly GridJob[],
  of: readonly MemberSwath[],
): number {
  const [field, asked] = [built.grid.fields[f] as GridField, built.request.fields[f]];
  const moments = chain.map((job) => crewJob(built, job));
  const fates = asked === undefined ? null : fatesOf(asked, of, moments);
  if (fates === null) return Number.NaN;
  return servedValue(field, chain) + field.worth * (meanKept(fates) - keptShare(field, chain));
}

/**
 * The plan with visits of a field back at their promised hours, of those choices that can be the one of which the replay
 * expects most: what windows count is no reason to break a promise. Null where it expects less of all of them.
 */
function promisedBack(
  built: BuiltCrew,
  f: number,
  jobs: readonly GridJob[],
  isPossible: (jobs: readonly GridJob[]) => boolean,
): readonly GridJob[] | null {
  const { grid, members } = built;
  const field = grid.fields[f] as GridField;
  const own = jobsOfField(field, f, jobs);
  const moved = own === null ? [] : movedOf(field, own);
  if (own === null || moved.length === 0) return null;
  const others = jobs.filter((job) => job.field !== f);
  const schedule = scheduleOf(grid, others);
  let best = {
    expected: expectedOf(built, f, own, members[f] ?? []) - 1e-9,
    jobs: null as typeof jobs | null,
  };
  for (const back of choicesOf(moved)) {
    const chain = withBack(grid, schedule, f, own, back);
    const expected = chain === null ? Number.NaN : expectedOf(built, f, chain, members[f] ?? []);
    if (chain === null || !(expected > best.expected)) continue;
    const tried = [...others, ...chain];
    if (isPossible(tried)) best = { expected, jobs: tried };
  }
  return best.jobs;
}
