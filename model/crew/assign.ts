import { type Grid, type GridField, type GridJob, travelOf } from "./grid.ts";
import { fixedJobs } from "./heuristic/schedule.ts";
import { CREW_OPS, type CrewOp } from "./keys.ts";
import type { Cut, PooledStart } from "./milp/step-model.ts";

/** Starts that were given machines and people, or those among them that cannot all be kept. */
export type Assigned =
  | { readonly ok: true; readonly jobs: readonly GridJob[] }
  | { readonly ok: false; readonly conflict: Cut };

interface Visit {
  readonly field: number;
  readonly task: number;
  readonly start: number;
  readonly end: number;
  readonly site: number;
  readonly machines: readonly number[];
  /** Fixed work has its machine and person. */
  readonly held: GridJob | null;
  /** Of a machine that goes along, the work that takes it along. */
  readonly behind?: Visit | undefined;
}

const MOST_NODES = 4000;

/** Gives every start a machine of its pool and a person, with the true drives; nobody is ever in two places. */
export function assignStarts(grid: Grid, starts: readonly (readonly PooledStart[] | null)[]): Assigned {
  const fixed = fixedJobs(grid);
  const visits: Visit[] = fixed.map((held) => ({
    ...held,
    site: siteOf(grid, held.field),
    machines: [held.machine],
    held,
  }));
  starts.forEach((own, field) => {
    own?.forEach(({ task, start, end, machines }) => {
      if (fixed.some((held) => held.field === field && held.task === task)) return;
      visits.push({ field, task, start, end, site: siteOf(grid, field), machines, held: null });
    });
  });
  visits.sort(byTime);

  const machineOf = new Map<Visit, number>();
  // Those that take others along come before them.
  for (const op of CREW_OPS) {
    const asking = visits.filter(
      ({ field, task }) => (grid.fields[field] as GridField).tasks[task]?.op === op,
    );
    const own = [...asking, ...followers(grid, op, visits, machineOf)].sort(byTime);
    const conflict = share(grid, own, "machines", (visit) => visit.machines, machineOf);
    if (conflict !== null) return { ok: false, conflict };
  }
  const personOf = new Map<Visit, number>();
  const everyone = grid.people.map((_, p) => p);
  const conflict = share(
    grid,
    visits,
    "people",
    (visit) => (visit.held === null ? everyone : [visit.held.person]),
    personOf,
  );
  if (conflict !== null) return { ok: false, conflict };
  return {
    ok: true,
    jobs: visits.map((visit) => ({
      field: visit.field,
      task: visit.task,
      start: visit.start,
      end: visit.end,
      machine: machineOf.get(visit) ?? -1,
      person: personOf.get(visit) ?? -1,
    })),
  };
}

function byTime(a: Visit, b: Visit): number {
  return a.start - b.start || a.end - b.end;
}

/** The visits of the machines of a work that go along with others to theirs. */
function followers(
  grid: Grid,
  op: CrewOp,
  visits: readonly Visit[],
  machineOf: ReadonlyMap<Visit, number>,
): Visit[] {
  return visits.flatMap((behind) =>
    (grid.machines[machineOf.get(behind) ?? -1]?.along ?? [])
      .filter((k) => grid.machines[k]?.op === op)
      .map((k) => ({ ...behind, machines: [k], behind })),
  );
}

function siteOf(grid: Grid, field: number): number {
  return grid.fields[field]?.site ?? 0;
}

/** In time order, each visit to one who can: by trying, with the last one there first. Null when all have one. */
function share(
  grid: Grid,
  visits: readonly Visit[],
  who: "machines" | "people",
  candidatesOf: (visit: Visit) => readonly number[],
  given: Map<Visit, number>,
): Cut | null {
  const last = new Map<number, Visit>();
  let nodes = 0;
  let deepest = 0;
  const can = (k: number, { start, end, site, held }: Visit): boolean => {
    if (held === null && (grid[who][k]?.freeUntil[start] as number) < end) return false;
    const before = last.get(k);
    return before === undefined || before.end + travelOf(grid, before.site, site) <= start || held !== null;
  };
  const place = (i: number): boolean => {
    const visit = visits[i];
    if (visit === undefined) return true;
    deepest = Math.max(deepest, i);
    if (nodes++ > MOST_NODES) return false;
    const candidates = candidatesOf(visit)
      .filter((k) => can(k, visit))
      // The one who is there already, then the one who has been busy last: so the free stay free.
      .map((k) => ({ k, there: last.get(k)?.site === visit.site ? 1 : 0, end: last.get(k)?.end ?? -1 }))
      .sort((a, b) => b.there - a.there || b.end - a.end || a.k - b.k);
    for (const { k } of candidates) {
      const before = last.get(k);
      last.set(k, visit);
      given.set(visit, k);
      if (place(i + 1)) return true;
      if (before === undefined) last.delete(k);
      else last.set(k, before);
      if (nodes > MOST_NODES) return false;
    }
    return false;
  };
  if (place(0)) return null;
  // Everything up to where it stuck cannot be shared out; leave out what is not needed for that.
  let stuck = visits.slice(0, deepest + 1);
  for (const visit of [...stuck]) {
    const fewer = stuck.filter((one) => one !== visit);
    if (!shareable(grid, fewer, who, candidatesOf)) stuck = fewer;
  }
  const asked = new Set(stuck.map((visit) => visit.behind ?? visit));
  return [...asked]
    .filter(({ held }) => held === null)
    .map(({ field, task, start, machines }) => ({ field, task, start, machines }));
}

function shareable(
  grid: Grid,
  visits: readonly Visit[],
  who: "machines" | "people",
  candidatesOf: (visit: Visit) => readonly number[],
): boolean {
  const last = new Map<number, Visit>();
  let nodes = 0;
  const place = (i: number): boolean => {
    const visit = visits[i];
    // Out of tries counts as shareable, so that nothing is cut off that might have been possible.
    if (visit === undefined || nodes++ > MOST_NODES) return true;
    for (const k of candidatesOf(visit)) {
      if (visit.held === null && (grid[who][k]?.freeUntil[visit.start] as number) < visit.end) continue;
      const before = last.get(k);
      const reached =
        before === undefined || before.end + travelOf(grid, before.site, visit.site) <= visit.start;
      if (!reached && visit.held === null) continue;
      last.set(k, visit);
      if (place(i + 1)) return true;
      if (before === undefined) last.delete(k);
      else last.set(k, before);
    }
    return false;
  };
  return place(0);
}
