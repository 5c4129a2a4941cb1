import type { Operation } from "../drying/operations.ts";
import type { Issue, Outcome } from "../limits.ts";
import { MINUTE_MS } from "../weather/clock.ts";
import type { CartShare } from "./carts.ts";
import type { GridFixed, GridResource } from "./grid.ts";
import { type CrewOp, isGather, isPass, KIND_OF_OP, opOrder } from "./keys.ts";
import type { Span } from "./problem.ts";
import type { CrewFixedRequest, CrewJobAnswer, CrewMachineRequest, CrewPlanRequest } from "./request.ts";
import { travelMinutes } from "./travel.ts";
import { routeBand } from "./windows/band.ts";
import type { HeldOps } from "./windows/field-windows.ts";
import type { SlotFrame } from "./windows/runs.ts";
import { heldSlots } from "./work-slots.ts";

/** Work that the new plan has no say in: done, under way or promised. It keeps its hours to the minute. */

export interface HeldWork {
  readonly asked: CrewFixedRequest;
  /** Where the question names it. */
  readonly path: string;
  /** Place in the question's own `fixed`; null for work of the plan before. */
  readonly at: number | null;
}

/** A visit of the plan before that was due and never began: its machine was away. */
export interface NotBegun {
  readonly fieldId: string;
  readonly op: CrewOp;
  readonly machineId: string;
  readonly startUtcMs: number;
  readonly path: string;
}

/** Work of the plan before that is done or under way, and what the question fixes itself. */
export function allFixed(request: CrewPlanRequest, nowUtcMs: number): HeldWork[] {
  const own = (request.fixed ?? []).map((asked, at): HeldWork => {
    // A visit that was held, has begun and ended: the plan before knows when.
    const begun = visitsDue(request, nowUtcMs).find(
      ({ job }) => job.fieldId === asked.fieldId && job.op === asked.op && job.startUtc === asked.startUtc,
    );
    const endUtc = asked.endUtc ?? (begun?.job.machineId === asked.machineId ? begun.job.endUtc : null);
    return { asked: { ...asked, endUtc }, path: `fixed[${at}]`, at };
  });
  const begun = begunWork(request, nowUtcMs).map(
    ({ job, n }): HeldWork => ({ asked: job, path: `previous.jobs[${n}]`, at: null }),
  );
  return [...own, ...begun];
}

/** Visits of the plan before that were due by now, of works that are still asked for; each once. */
function visitsDue(request: CrewPlanRequest, nowUtcMs: number) {
  const jobs = request.previous?.jobs ?? [];
  return jobs.flatMap((job, n) => {
    const { fieldId, op, startUtc } = job;
    const isAsked = request.fields.some(({ id, ops }) => id === fieldId && ops.includes(op));
    const isFirst = jobs.findIndex((one) => one.fieldId === fieldId && one.op === op) === n;
    return Date.parse(startUtc) < nowUtcMs && isAsked && isFirst ? [{ job, n }] : [];
  });
}

function isOwn(request: CrewPlanRequest, { fieldId, op }: CrewJobAnswer): boolean {
  return (request.fixed ?? []).some((one) => one.fieldId === fieldId && one.op === op);
}

/** The time off of a machine that holds a moment, or begins in a span. */
function offIn(machine: CrewMachineRequest | undefined, { fromUtcMs, toUtcMs }: Span): number | null {
  const starts = (machine?.offUtc ?? [])
    .filter(({ fromUtc, toUtc }) => Date.parse(fromUtc) < toUtcMs && Date.parse(toUtc) > fromUtcMs)
    .map(({ fromUtc }) => Date.parse(fromUtc));
  return starts.length === 0 ? null : Math.min(...starts);
}

/** True where the machine of a visit was away at its very start: nothing of it can have been done. */
function neverBegan(request: CrewPlanRequest, { machineId, startUtc }: CrewJobAnswer): boolean {
  const startUtcMs = Date.parse(startUtc);
  const machine = request.machines.find(({ id }) => id === machineId);
  return offIn(machine, { fromUtcMs: startUtcMs, toUtcMs: startUtcMs + 1 }) !== null;
}

function begunWork(request: CrewPlanRequest, nowUtcMs: number) {
  return visitsDue(request, nowUtcMs).filter(({ job }) => !isOwn(request, job) && !neverBegan(request, job));
}

/** Visits that were due and are planned anew, because their machine was away when they should have begun. */
export function notBegun(request: CrewPlanRequest, nowUtcMs: number): NotBegun[] {
  return visitsDue(request, nowUtcMs)
    .filter(({ job }) => !isOwn(request, job) && neverBegan(request, job))
    .map(({ job: { fieldId, op, machineId, startUtc }, n }) => ({
      fieldId,
      op,
      machineId,
      startUtcMs: Date.parse(startUtc),
      path: `previous.jobs[${n}]`,
    }));
}

const ALL_TIME = [{ fromUtc: "1900-01-01T00:00:00Z", toUtc: "2200-01-01T00:00:00Z" }];

/** The question with the machines and people that have left since they began work: away for good, so that it stands. */
export function withThoseGone(request: CrewPlanRequest, nowUtcMs: number): CrewPlanRequest {
  const machines = [...request.machines];
  const people = [...request.people];
  for (const { job } of begunWork(request, nowUtcMs)) {
    const { op, machineId, personId } = job;
    if (!machines.some(({ id }) => id === machineId)) {
      machines.push({ id: machineId, kind: KIND_OF_OP[op], offUtc: ALL_TIME });
    }
    if (!people.some(({ id }) => id === personId)) {
      people.push({ id: personId, from: "07:00", to: "20:00", offUtc: ALL_TIME });
    }
  }
  return { ...request, machines, people };
}

/** One piece of fixed work in the slots of the grid that it touches, and as it was asked for. */
export interface PlacedWork extends GridFixed, HeldWork {
  readonly moments: Span;
  /** Where its machine broke down or left in the middle of it: what was left of it then is not done. */
  readonly brokeOff: { readonly atUtcMs: number; readonly leftMs: number } | null;
  readonly siteId: string;
}

/** All fixed work with its people: who is named, else the first who is free of other fixed work; and what cannot be. */
export function placedWork(
  request: CrewPlanRequest,
  /** The machines of the crew today. */
  machines: readonly CrewMachineRequest[],
  carts: CartShare,
  fixed: readonly HeldWork[],
  frame: SlotFrame,
  nowUtcMs: number,
  people: readonly GridResource[],
  travelMin: Readonly<Record<string, number>>,
): Outcome<readonly PlacedWork[]> {
  const slotOf = (utcMs: number) => (utcMs - frame.startUtcMs) / frame.slotMs;
  const placed = fixed.flatMap((held): PlacedWork[] => {
    const { asked } = held;
    const field = request.fields.find(({ id }) => id === asked.fieldId);
    const machine = request.machines.findIndex(({ id }) => id === asked.machineId);
    const own = request.machines[machine];
    if (field === undefined || own === undefined) return [];
    const fromUtcMs = Date.parse(asked.startUtc);
    const slotMin = frame.slotMs / MINUTE_MS;
    const slots = heldSlots(asked.op, field, own, routeBand(field)[1], slotMin, carts);
    const endUtcMs = asked.endUtc ? Date.parse(asked.endUtc) : fromUtcMs + slots * frame.slotMs;
    // A machine that is not in the list any more has left after its work.
    const present = machines.find(({ id }) => id === asked.machineId);
    const offMs =
      fromUtcMs < nowUtcMs ? offIn(present, { fromUtcMs: fromUtcMs + 1, toUtcMs: endUtcMs }) : null;
    const brokeOff =
      offMs === null || offMs <= fromUtcMs ? null : { atUtcMs: offMs, leftMs: endUtcMs - offMs };
    const moments = { fromUtcMs, toUtcMs: brokeOff?.atUtcMs ?? endUtcMs };
    // Work done before the grid begins stands at its edge.
    const start = Math.min(frame.count - 1, Math.max(0, Math.floor(slotOf(fromUtcMs))));
    const end = Math.min(frame.count, Math.max(start + 1, Math.ceil(slotOf(moments.toUtcMs))));
    const person = request.people.findIndex(({ id }) => id === asked.personId);
    return [{ ...held, moments, brokeOff, siteId: field.siteId, start, end, machine, person }];
  });
  const issues: Issue[] = [];
  const meet = (a: PlacedWork, b: PlacedWork) => meets(a, b, travelMin);
  for (const [i, work] of placed.entries()) {
    if (work.person >= 0) continue;
    const isFree = (p: number) => !placed.some((one) => one.person === p && meet(one, work));
    const inHours = people.findIndex(
      ({ freeUntil }, p) => (freeUntil[work.start] ?? 0) >= work.end && isFree(p),
    );
    // Fixed work may lie outside anybody's hours, but not with somebody who is never there.
    const atAll = people.findIndex(({ freeUntil }, p) => freeUntil.some((end, t) => end > t) && isFree(p));
    const person = inHours >= 0 ? inHours : atAll;
    if (person >= 0) placed[i] = { ...work, person };
    else {
      issues.push(
        clash(work, "somebody must be free then, and all people are away, fixed elsewhere or driving"),
      );
    }
  }
  placed.forEach((work, i) => {
    for (const other of placed.slice(0, i)) {
      // What is done is done, however it went; a question's own fixed work stands first.
      const [named, against] = work.at === null ? [other, work] : [work, other];
      if (named.at === null) continue;
      const where = `is fixed at "${against.asked.fieldId}"`;
      const overlap = together(work, other);
      const busy = overlap ? where : `${where} or on the drive between the two`;
      if (meet(work, other)) {
        const machine = request.machines[work.machine]?.id;
        const person = request.people[work.person]?.id;
        if (work.machine === other.machine)
          issues.push(clash(named, `${machine} must be free then, and ${busy}`));
        if (work.person >= 0 && work.person === other.person) {
          issues.push(clash(named, `${person} must be free then, and ${busy}`));
        }
      }
      if (work.asked.fieldId !== other.asked.fieldId) continue;
      const [first, second] =
        opOrder(work.asked.op) < opOrder(other.asked.op) ? [work, other] : [other, work];
      if (first.moments.toUtcMs > second.moments.fromUtcMs) {
        const said = `${first.asked.op} of "${first.asked.fieldId}" (fixed at ${first.asked.startUtc}) must end before its ${second.asked.op} (fixed at ${second.asked.startUtc}) starts`;
        issues.push(clash(named, said, "out-of-order"));
      }
    }
  });
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: placed };
}

function clash({ path, asked }: PlacedWork, said: string, code = "clash"): Issue {
  const at = `${path}.startUtc`;
  return { path: at, code, message: `${at}: got ${asked.startUtc}; ${said}` };
}

function together(a: PlacedWork, b: PlacedWork): boolean {
  return a.moments.fromUtcMs < b.moments.toUtcMs && b.moments.fromUtcMs < a.moments.toUtcMs;
}

/** True where nobody can do both: they overlap, or leave no time for the drive. */
function meets(a: PlacedWork, b: PlacedWork, travelMin: Readonly<Record<string, number>>): boolean {
  if (together(a, b)) return true;
  const driveMs = (travelMinutes(travelMin, a.siteId, b.siteId) ?? 0) * MINUTE_MS;
  const [first, second] = a.moments.fromUtcMs <= b.moments.fromUtcMs ? [a, b] : [b, a];
  return first.moments.toUtcMs + driveMs > second.moments.fromUtcMs;
}

/** Tedding and raking among held work, each at the middle of its hours. */
export function heldPasses(held: readonly PlacedWork[]): readonly Operation[] {
  return held.flatMap(({ asked: { op }, moments: { fromUtcMs, toUtcMs } }): Operation[] =>
    isPass(op) ? [{ kind: op, atUtcMs: (fromUtcMs + toUtcMs) / 2, coveredFraction: null }] : [],
  );
}

/** Held work of a field, as its windows are asked with it. */
export function heldOpsOf(held: readonly PlacedWork[]): HeldOps {
  return {
    ops: held.map(({ asked }) => asked.op),
    gatherStart: held.find(({ asked }) => isGather(asked.op))?.start ?? null,
    passes: heldPasses(held),
  };
}
