import { seededRandom } from "../odds/random.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type Grid, type GridField, type GridJob, slotUtcMs } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { bestPlace, mowChoices } from "./heuristic/insert.ts";
import { fixedSchedule } from "./heuristic/schedule.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import { jobsOfField, placesOf } from "./value.ts";
import { alwaysThere, withoutTimeOff } from "./variants.ts";
import type { Reason } from "./why-moved.ts";
import { dayTime, fieldName, kindWord, listWords, opWord, spanTime, spokenClock } from "./words.ts";

/** Fields that machines or people keep out of the plan: who is away or held, and until when. */

export const NO_MACHINE = "no machine is free in its window";
export const NOBODY = "nobody is free in its window";

export function placeAlone(grid: Grid, f: number) {
  return bestPlace(grid, fixedSchedule(grid), f, mowChoices(grid, f));
}

/** Rounds of the search that asks what a machine's time off costs. */
const ROUNDS = 80;

/** Fields that would be served if the machines of a work had no time off ahead; none where they have none. */
export type IfThere = (op: CrewOp) => ReadonlySet<number>;

/** Asked only when a field is left, and once a work: the plan is searched on with the machine there at all hours. */
export function servedIfThere(built: BuiltCrew, jobs: readonly GridJob[], stop: () => boolean): IfThere {
  const { grid } = built;
  const known = new Map<CrewOp, ReadonlySet<number>>();
  const search = (op: CrewOp): ReadonlySet<number> => {
    if (timesOff(built, op).length === 0 || stop()) return new Set();
    const there = withoutTimeOff(grid, op);
    const effort = { rounds: ROUNDS, random: seededRandom(1), stop, start: placesOf(there, jobs) };
    const found = searchPlan(there, effort);
    return new Set(
      grid.fields.flatMap((field, f) => (jobsOfField(field, f, found.jobs) === null ? [] : [f])),
    );
  };
  return (op) => {
    const served = known.get(op) ?? search(op);
    known.set(op, served);
    return served;
  };
}

/** Times off, not over yet, of the machines of a work. */
function timesOff({ request, nowUtcMs }: BuiltCrew, op: CrewOp) {
  return request.machines
    .filter(({ kind }) => kind === KIND_OF_OP[op])
    .flatMap(({ name, offUtc }) => (offUtc ?? []).map(({ toUtc }) => ({ name, toMs: Date.parse(toUtc) })))
    .filter(({ toMs }) => toMs > nowUtcMs)
    .sort((a, b) => a.toMs - b.toMs);
}

/** A machine without whose time off the field could be done, and that is at other fields when it is there. */
export function awayAndTaken(built: BuiltCrew, op: CrewOp): Reason {
  const { grid, request } = built;
  const [first] = timesOff(built, op);
  const kind = kindWord(KIND_OF_OP[op]);
  const isOnly = request.machines.filter((one) => one.kind === KIND_OF_OP[op]).length === 1;
  const name = first?.name ? ` (${first.name})` : "";
  const who = `${isOnly ? "the only" : "a"} ${kind}${name}`;
  if (first === undefined || first.toMs >= slotUtcMs(grid, grid.count)) {
    return { why: `${who} is away when it could be done` };
  }
  const away = `${who} is away until ${dayTime(first.toMs, spokenClock(built))}`;
  return { why: `${away}, and at fields that bring more when it is there`, customerWhy: away };
}

/** It could be done in its windows, but not with these machines and people, even if no other field were served. */
export function notAlone(built: BuiltCrew, f: number): Reason {
  const { grid } = built;
  const field = grid.fields[f] as GridField;
  const open = field.tasks.filter(({ fixed }) => fixed === null);
  const ops = open.map(({ op }) => op);
  const free = alwaysThere(grid, ops, false);
  if (placeAlone(free, f) !== null) {
    // The first work that fails although all machines of those after it were there.
    const at = ops.findIndex((_, i) => placeAlone(alwaysThere(grid, ops.slice(i + 1), false), f) === null);
    const op = ops[Math.max(0, at)] as CrewOp;
    const without = alwaysThere(grid, ops.slice(Math.max(0, at)), false);
    const job = placeAlone(without, f)?.jobs.find(({ task }) => field.tasks[task]?.op === op);
    return job === undefined
      ? { why: `the ${kindWord(KIND_OF_OP[op])} is away` }
      : whereMachineIs(built, op, job);
  }
  const anyone = placeAlone(alwaysThere(grid, ops, true), f);
  if (anyone !== null) {
    const job = anyone.jobs.find(
      ({ task, start, end }) =>
        field.tasks[task]?.fixed === null &&
        !grid.people.some(({ freeUntil }) => (freeUntil[start] as number) >= end),
    );
    const op = field.tasks[job?.task ?? 0]?.op ?? "mow";
    if (job === undefined) {
      return { why: "nobody can follow its works one after the other in their windows", customerWhy: NOBODY };
    }
    const when = spanTime(slotUtcMs(grid, job.start), slotUtcMs(grid, job.end), spokenClock(built));
    return { why: `nobody is at work when ${opWord(op)} is possible (first ${when})`, customerWhy: NOBODY };
  }
  const works = ops.map(opWord);
  const why =
    works.length === 1
      ? `${works[0]} does not fit into its window`
      : `${listWords(works)} do not fit into their windows one after the other`;
  return { why };
}

/** "the only baler is away until Thu 08:00", or where it is held. */
function whereMachineIs(built: BuiltCrew, op: CrewOp, job: GridJob): Reason {
  const { grid, request } = built;
  const clock = spokenClock(built);
  const kind = kindWord(KIND_OF_OP[op]);
  const own = request.machines.filter((machine) => machine.kind === KIND_OF_OP[op]);
  const [fromMs, toMs] = [slotUtcMs(grid, job.start), slotUtcMs(grid, job.end)];
  const name = own.length === 1 && own[0]?.name ? ` (${own[0].name})` : "";
  const who = own.length === 1 ? `the only ${kind}${name}` : `every ${kind}`;
  const offs = own.flatMap(({ offUtc }) =>
    (offUtc ?? [])
      .map((off) => ({ fromMs: Date.parse(off.fromUtc), toMs: Date.parse(off.toUtc) }))
      .filter((off) => off.fromMs < toMs && off.toMs > fromMs),
  );
  if (offs.length > 0) {
    const back = Math.min(...offs.map((off) => off.toMs));
    if (back >= slotUtcMs(grid, grid.count)) return { why: `${who} is away through all of these days` };
    return { why: `${who} is away until ${dayTime(back, clock)}, too late for ${opWord(op)}` };
  }
  const held = built.placed.find(
    ({ asked, moments }) => asked.op === op && moments.fromUtcMs < toMs && moments.toUtcMs > fromMs,
  );
  const at = request.fields.find(({ id }) => id === held?.asked.fieldId);
  const why =
    at === undefined
      ? `${who} is held elsewhere when ${opWord(op)} is possible`
      : `${who} is held at ${fieldName(at)} ${spanTime(held?.moments.fromUtcMs ?? 0, held?.moments.toUtcMs ?? 0, clock)}`;
  return { why, customerWhy: NO_MACHINE };
}
