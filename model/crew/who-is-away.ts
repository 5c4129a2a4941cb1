import { seededRandom } from "../odds/random.ts";
import { placeAlone, placesAlone } from "./alone.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type Grid, type GridField, type GridJob, slotUtcMs } from "./grid.ts";
import { searchPlan } from "./heuristic/improve.ts";
import { type CrewOp, KIND_OF_OP } from "./keys.ts";
import { whyNobody } from "./nobody-there.ts";
import type { Span } from "./problem.ts";
import type { Reason } from "./reason.ts";
import type { CrewMachineRequest, OffSpan } from "./request.ts";
import { jobsOfField, placesOf } from "./value.ts";
import { alwaysThere, withoutTimeOff } from "./variants.ts";
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
  /** Of a cart that a machine of the work takes along. */
  readonly isCart: boolean;
}

/** The carts that the machines of a work take along. */
function cartsOf({ grid, request }: BuiltCrew, isAsked: (place: number) => boolean): CrewMachineRequest[] {
  const places = grid.machines.flatMap(({ along }, k) => (isAsked(k) ? (along ?? []) : []));
  return places.flatMap((k) => request.machines[k] ?? []);
}

/** Times off, not over yet, of the machines of a work and of their carts, by their beginning. */
function timesOff(built: BuiltCrew, op: CrewOp): readonly Off[] {
  const { request, nowUtcMs, grid } = built;
  const own = request.machines.filter(({ kind }) => kind === KIND_OF_OP[op]);
  const carts = cartsOf(built, (k) => grid.machines[k]?.op === op);
  const offs = (list: readonly CrewMachineRequest[], isCart: boolean) =>
    list.flatMap(({ name, offUtc }) => (offUtc ?? []).map((off) => ({ name, isCart, ...spanOf(off) })));
  return [...offs(own, false), ...offs(carts, true)]
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

/** Hours at which a work of a field could be done, were its machines always there and no other field served. */
function hoursFor(built: BuiltCrew, grid: Grid, f: number, op: CrewOp): Span[] {
  const task = built.grid.fields[f]?.tasks.findIndex((one) => one.op === op) ?? -1;
  return (placesAlone(grid, f)[task] ?? []).map(({ start, end }) => ({
    fromUtcMs: slotUtcMs(grid, start),
    toUtcMs: slotUtcMs(grid, end),
  }));
}

function meets(one: Span, other: Span): boolean {
  return one.fromUtcMs < other.toUtcMs && other.fromUtcMs < one.toUtcMs;
}

/** What keeps a machine from a field's other hours, for the crew and for a customer, by how its time off was said. */
function otherHours(away: string): readonly [string, string] {
  if (away.startsWith("away until"))
    return ["and at fields that bring more after that", "and not free in time after that"];
  if (away.endsWith(" on")) return ["and at fields that bring more before that", "and not free before that"];
  return ["and at fields that bring more at other hours", "and not free at another hour that would do"];
}

/**
 * A machine without whose time off the field could be done, and that is at other fields when it is there. What binds in
 * the field's own hours comes first: the time off, where it lies in them, else the other fields. A time off is told with
 * its hours where there is one that can be meant.
 *
 * @param isTaken whether the machine is at other fields in all hours of the field in which it is there
 */
export function awayAndTaken(built: BuiltCrew, f: number, op: CrewOp, isTaken: boolean): Reason {
  const { grid, request } = built;
  const all = timesOff(built, op);
  const hours = hoursFor(built, withoutTimeOff(grid, op), f, op);
  const own = all.filter((off) => hours.some((span) => meets(span, off)));
  const offs = own.length > 0 ? own : all;
  const [first] = offs;
  const kind = kindWord(KIND_OF_OP[op]);
  const isOnly = request.machines.filter((one) => one.kind === KIND_OF_OP[op]).length === 1;
  const name = first?.name && offs.length === 1 ? ` (${first.name})` : "";
  const only = `${isOnly ? "the only" : "a"} ${kind}`;
  const who = first?.isCart === true ? `a cart of ${only}${name}` : `${only}${name}`;
  const away =
    first === undefined || offs.length > 1 ? "away for a part of these days" : awayWords(built, first);
  if (!isTaken) {
    return {
      why: `${who} is ${away}, and at other hours the field finds no place beside those that bring more`,
      customerWhy: `${who} is ${away}, and no time was found at other hours`,
    };
  }
  if (own.length === 0) {
    const why = isOnly
      ? `${only} is at fields that bring more when ${opWord(op)} is possible, and ${first?.isCart === true ? `${who} ` : ""}${away}`
      : `every ${kind} is at fields that bring more when ${opWord(op)} is possible, and ${who} ${away}`;
    return { why, customerWhy: NO_MACHINE };
  }
  const [crew, customer] = isOnly
    ? otherHours(away)
    : [`and each ${kind} that is there at fields that bring more`, "and no other is free"];
  return { why: `${who} is ${away}, ${crew}`, customerWhy: `${who} is ${away}, ${customer}` };
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
      : whereMachineIs(built, op, job, hoursFor(built, without, f, op));
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

/** When a machine is away, and that no other hour would do: "away until Thu 2 Jul 08:00, too late for baling". */
function awayFor(built: BuiltCrew, op: CrewOp, span: Span): string {
  const words = awayWords(built, span);
  if (words.startsWith("away until")) return `${words}, too late for ${opWord(op)}`;
  return words.startsWith("away from") && !words.endsWith(" on")
    ? `${words}, when ${opWord(op)} is possible`
    : words;
}

/**
 * "the only baler is away until Thu 08:00", or where it is held; both where it is needed elsewhere when it is back.
 *
 * @param job where the work would be, were another machine there
 * @param hours all hours that would do
 */
function whereMachineIs(built: BuiltCrew, op: CrewOp, job: GridJob, hours: readonly Span[]): Reason {
  const { grid, request } = built;
  const kind = kindWord(KIND_OF_OP[op]);
  const own = request.machines.filter((machine) => machine.kind === KIND_OF_OP[op]);
  const [only] = own;
  if (only === undefined) return { why: `the ${kind} is away` };
  const wanted = { fromUtcMs: slotUtcMs(grid, job.start), toUtcMs: slotUtcMs(grid, job.end) };
  if (own.length === 1) return whereOnlyOneIs(built, op, only, hours.length === 0 ? [wanted] : hours);
  const keeps = own.map((machine) => keptFrom(built, machine, [wanted]));
  if (keeps.every(({ away, held }) => away.length > 0 && held.length === 0)) {
    // Of several the one that is back first ends it.
    const spans = keeps.flatMap(({ away }) => away.slice(0, 1));
    const fromUtcMs = Math.max(...spans.map((span) => span.fromUtcMs));
    const toUtcMs = Math.min(...spans.map((span) => span.toUtcMs));
    return { why: `every ${kind} is ${awayFor(built, op, { fromUtcMs, toUtcMs })}` };
  }
  return {
    why: `every ${kind} is away or held elsewhere when ${opWord(op)} is possible`,
    customerWhy: NO_MACHINE,
  };
}

/** Of all hours that would do, not of those alone that would be taken: it may be away in some and held in others. */
function whereOnlyOneIs(
  built: BuiltCrew,
  op: CrewOp,
  machine: CrewMachineRequest,
  hours: readonly Span[],
): Reason {
  const place = built.request.machines.indexOf(machine);
  const only = `the only ${kindWord(KIND_OF_OP[op])}`;
  const named = ({ name }: CrewMachineRequest) => (name ? ` (${name})` : "");
  const itself = { who: `${only}${named(machine)}`, ...keptFrom(built, machine, hours) };
  const kept = [
    itself,
    ...cartsOf(built, (k) => k === place).map((cart) => ({
      who: `a cart of ${only}${named(cart)}`,
      ...keptFrom(built, cart, hours),
    })),
  ].find((one) => one.away.length > 0 || one.held.length > 0);
  const { who, away, held } = kept ?? itself;
  const when = `when ${opWord(op)} is possible`;
  const [off, ...moreOff] = away;
  const [work, ...moreWork] = held;
  if (off !== undefined && work === undefined) {
    return { why: `${who} is ${moreOff.length === 0 ? awayFor(built, op, off) : `away ${when}`}` };
  }
  if (work === undefined) return { why: `${who} is held elsewhere ${when}`, customerWhy: NO_MACHINE };
  const ids = new Set(held.map(({ fieldId }) => fieldId));
  const names = listWords(built.request.fields.filter(({ id }) => ids.has(id)).map(fieldName));
  const span = spanTime(work.fromUtcMs, work.toUtcMs, spokenClock(built));
  const heldAt = `held at ${names} ${moreWork.length === 0 ? span : when}`;
  if (off === undefined) return { why: `${who} is ${heldAt}`, customerWhy: NO_MACHINE };
  const gone = moreOff.length === 0 ? awayWords(built, off) : "away for a part of these days";
  return { why: `${who} is ${gone}, and ${heldAt}`, customerWhy: NO_MACHINE };
}

interface Kept {
  /** Stretches through which it is away in some of the hours asked for. */
  readonly away: readonly Span[];
  /** Where it is held in some of them, or when it comes back. */
  readonly held: readonly (Span & { readonly fieldId: string })[];
}

/** What keeps a machine from some hours: times off that follow each other are one. */
function keptFrom(
  { placed, request }: BuiltCrew,
  { id, offUtc }: CrewMachineRequest,
  hours: readonly Span[],
): Kept {
  const offs = (offUtc ?? []).map(spanOf).sort((a, b) => a.fromUtcMs - b.fromUtcMs);
  const whole: Span[] = [];
  for (const off of offs) {
    const last = whole.at(-1);
    if (last === undefined || off.fromUtcMs > last.toUtcMs) whole.push(off);
    else whole.splice(-1, 1, { ...last, toUtcMs: Math.max(last.toUtcMs, off.toUtcMs) });
  }
  const away = whole.filter((off) => hours.some((span) => meets(span, off)));
  const isIn = (held: Span) =>
    hours.some((span) => meets(span, held)) ||
    away.some(({ toUtcMs }) => held.fromUtcMs <= toUtcMs && held.toUtcMs > toUtcMs);
  const held = placed.filter(({ machine, moments }) => request.machines[machine]?.id === id && isIn(moments));
  return { away, held: held.map(({ moments, asked }) => ({ ...moments, fieldId: asked.fieldId })) };
}
