import { seededRandom } from "../odds/random.ts";
import { placeAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type GridField, type GridJob, slotUtcMs } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import { whyNobody } from "./nobody-there.ts";
import type { Span } from "./problem.ts";
import type { OffSpan } from "./request.ts";
import { jobsOfField, placesOf } from "./value.ts";
import { alwaysThere, withoutTimeOff } from "./variants.ts";
import type { Reason } from "./why-moved.ts";
import { dayTime, fieldName, kindWord, listWords, opWord, spanTime, spokenClock } from "./words.ts";

/** Fields that machines or people keep out of the plan: who is away or held, and until when. */

export const NO_MACHINE = "no machine is free in its window";
export const NOBODY = "nobody is free in its window";

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

function spanOf({ fromUtc, toUtc }: OffSpan): Span {
  return { fromUtcMs: Date.parse(fromUtc), toUtcMs: Date.parse(toUtc) };
}

interface Off extends Span {
  readonly name: string | null | undefined;
}

/** Times off, not over yet, of the machines of a work, by their beginning. */
function timesOff({ request, nowUtcMs }: BuiltCrew, op: CrewOp): readonly Off[] {
  return request.machines
    .filter(({ kind }) => kind === KIND_OF_OP[op])
    .flatMap(({ name, offUtc }) => (offUtc ?? []).map((off) => ({ name, ...spanOf(off) })))
    .filter(({ toUtcMs }) => toUtcMs > nowUtcMs)
    .sort((a, b) => a.fromUtcMs - b.fromUtcMs || a.toUtcMs - b.toUtcMs);
}

/** "away until Thu 2 Jul 08:00", "away from Thu 2 Jul 08:00 to 12:00", "away from Thu 2 Jul 08:00 on". */
function awayWords(built: BuiltCrew, { fromUtcMs, toUtcMs }: Span): string {
  const clock = spokenClock(built);
  const now = fromUtcMs <= built.nowUtcMs;
  const back = toUtcMs < slotUtcMs(built.grid, built.grid.count);
  if (now) return back ? `away until ${dayTime(toUtcMs, clock)}` : "away through all of these days";
  return back
    ? `away from ${spanTime(fromUtcMs, toUtcMs, clock)}`
    : `away from ${dayTime(fromUtcMs, clock)} on`;
}

/**
 * A machine without whose time off the field could be done, and that is at other fields when it is there. Its hours are
 * told where there is one time off that can be meant.
 */
export function awayAndTaken(built: BuiltCrew, op: CrewOp): Reason {
  const { request } = built;
  const offs = timesOff(built, op);
  const [only] = offs;
  const kind = kindWord(KIND_OF_OP[op]);
  const isOnly = request.machines.filter((one) => one.kind === KIND_OF_OP[op]).length === 1;
  const taken = "and at fields that bring more when it is there";
  if (only === undefined || offs.length > 1) {
    const away = `${isOnly ? "the only" : "a"} ${kind} is away for a part of these days`;
    return { why: `${away}, ${taken}`, customerWhy: away };
  }
  const name = only.name ? ` (${only.name})` : "";
  const away = `${isOnly ? "the only" : "a"} ${kind}${name} is ${awayWords(built, only)}`;
  return only.fromUtcMs <= built.nowUtcMs && only.toUtcMs >= slotUtcMs(built.grid, built.grid.count)
    ? { why: away }
    : { why: `${away}, ${taken}`, customerWhy: away };
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
    const why = whyNobody(built, f) ?? "nobody can follow its works one after the other in their windows";
    return { why, customerWhy: NOBODY };
  }
  const works = ops.map(opWord);
  const why =
    works.length === 1
      ? `${works[0]} does not fit into its window`
      : `${listWords(works)} do not fit into their windows one after the other`;
  return { why };
}

/** "the only baler is away until Thu 08:00", or where it is held; both where it is needed elsewhere when it is back. */
function whereMachineIs(built: BuiltCrew, op: CrewOp, job: GridJob): Reason {
  const { grid, request } = built;
  const kind = kindWord(KIND_OF_OP[op]);
  const own = request.machines.filter((machine) => machine.kind === KIND_OF_OP[op]);
  const wanted = { fromUtcMs: slotUtcMs(grid, job.start), toUtcMs: slotUtcMs(grid, job.end) };
  const keeps = own.map(({ id, offUtc }) => keptFrom(built, id, offUtc ?? [], wanted));
  const name = own.length === 1 && own[0]?.name ? ` (${own[0].name})` : "";
  const who = own.length === 1 ? `the only ${kind}${name}` : `every ${kind}`;
  const [first] = keeps;
  if (first === undefined) return { why: `the ${kind} is away` };
  if (keeps.every(({ away, held }) => away !== null && held === null)) {
    // Of several the one that is back first ends it.
    const spans = keeps.flatMap(({ away }) => away ?? []);
    const span = {
      fromUtcMs: Math.max(...spans.map(({ fromUtcMs }) => fromUtcMs)),
      toUtcMs: Math.min(...spans.map(({ toUtcMs }) => toUtcMs)),
    };
    const words = awayWords(built, span);
    const late = words.startsWith("away until") ? `, too late for ${opWord(op)}` : "";
    return { why: `${who} is ${words}${late}` };
  }
  if (own.length > 1) {
    return {
      why: `every ${kind} is away or held elsewhere when ${opWord(op)} is possible`,
      customerWhy: NO_MACHINE,
    };
  }
  const { away, held } = first;
  const at = request.fields.find(({ id }) => id === held?.fieldId);
  if (at === undefined || held === null) {
    return { why: `${who} is held elsewhere when ${opWord(op)} is possible`, customerWhy: NO_MACHINE };
  }
  const place = `held at ${fieldName(at)} ${spanTime(held.fromUtcMs, held.toUtcMs, spokenClock(built))}`;
  return {
    why: away === null ? `${who} is ${place}` : `${who} is ${awayWords(built, away)}, and ${place}`,
    customerWhy: NO_MACHINE,
  };
}

interface Kept {
  /** The stretch through which it is away that begins before the end of the hours asked for; null = none. */
  readonly away: Span | null;
  /** Where it is held then, or when it comes back. */
  readonly held: (Span & { readonly fieldId: string }) | null;
}

/** What keeps a machine from some hours: times off that follow each other are one. */
function keptFrom(
  { placed, request }: BuiltCrew,
  machineId: string,
  offUtc: readonly OffSpan[],
  { fromUtcMs, toUtcMs }: Span,
): Kept {
  const offs = offUtc.map(spanOf).sort((a, b) => a.fromUtcMs - b.fromUtcMs);
  const whole: Span[] = [];
  for (const off of offs) {
    const last = whole.at(-1);
    if (last === undefined || off.fromUtcMs > last.toUtcMs) whole.push(off);
    else whole.splice(-1, 1, { ...last, toUtcMs: Math.max(last.toUtcMs, off.toUtcMs) });
  }
  const away = whole.find((off) => off.fromUtcMs < toUtcMs && off.toUtcMs > fromUtcMs) ?? null;
  const untilMs = Math.max(toUtcMs, away?.toUtcMs ?? 0);
  const held = placed.find(
    ({ machine, moments }) =>
      request.machines[machine]?.id === machineId &&
      moments.fromUtcMs <= untilMs &&
      moments.toUtcMs > fromUtcMs,
  );
  return {
    away,
    held: held === undefined ? null : { ...held.moments, fieldId: held.asked.fieldId },
  };
}
