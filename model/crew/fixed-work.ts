import type { Issue, Outcome } from "../limits.ts";
import { MINUTE_MS } from "../weather/clock.ts";
import type { GridFixed, GridResource } from "./grid.ts";
import { KIND_OF_OP, opOrder } from "./keys.ts";
import { slotsFor } from "./rates.ts";
import type { CrewFixedRequest, CrewJobAnswer, CrewPlanRequest } from "./request.ts";
import { travelMinutes } from "./travel.ts";
import { routeBand } from "./windows/band.ts";
import type { SlotFrame } from "./windows/field-windows.ts";

/** Work that the new plan has no say in: done, under way or promised. */

/** Work of the plan before that is done or under way, and what the question fixes itself. */
export function allFixed(request: CrewPlanRequest, nowUtcMs: number): CrewFixedRequest[] {
  return [...(request.fixed ?? []), ...begunWork(request, nowUtcMs)];
}

function begunWork(request: CrewPlanRequest, nowUtcMs: number): CrewJobAnswer[] {
  const given = request.fixed ?? [];
  return (request.previous?.jobs ?? []).filter(
    ({ fieldId, op, startUtc }) =>
      Date.parse(startUtc) < nowUtcMs &&
      request.fields.some(({ id, ops }) => id === fieldId && ops.includes(op)) &&
      !given.some((one) => one.fieldId === fieldId && one.op === op),
  );
}

const ALL_TIME = [{ fromUtc: "1900-01-01T00:00:00Z", toUtc: "2200-01-01T00:00:00Z" }];

/** The question with the machines and people that have left since they began work: away for good, so that it stands. */
export function withThoseGone(request: CrewPlanRequest, nowUtcMs: number): CrewPlanRequest {
  const machines = [...request.machines];
  const people = [...request.people];
  for (const { op, machineId, personId } of begunWork(request, nowUtcMs)) {
    if (!machines.some(({ id }) => id === machineId)) {
      machines.push({ id: machineId, kind: KIND_OF_OP[op], offUtc: ALL_TIME });
    }
    if (!people.some(({ id }) => id === personId)) {
      people.push({ id: personId, from: "07:00", to: "20:00", offUtc: ALL_TIME });
    }
  }
  return { ...request, machines, people };
}

/** One piece of fixed work in the slots of the grid, and as it was asked for. */
export interface PlacedWork extends GridFixed {
  readonly asked: CrewFixedRequest;
  /** Place in the question's own `fixed`; null for work of the plan before. */
  readonly at: number | null;
  readonly startUtcMs: number;
  readonly siteId: string;
}

/** All fixed work with its people: who is named, else the first who is free of other fixed work; and what cannot be. */
export function placedWork(
  request: CrewPlanRequest,
  fixed: readonly CrewFixedRequest[],
  frame: SlotFrame,
  people: readonly GridResource[],
  travelMin: Readonly<Record<string, number>>,
): Outcome<readonly PlacedWork[]> {
  const placed = fixed.flatMap((asked, i): PlacedWork[] => {
    const field = request.fields.find(({ id }) => id === asked.fieldId);
    const machine = request.machines.findIndex(({ id }) => id === asked.machineId);
    const own = request.machines[machine];
    if (field === undefined || own === undefined) return [];
    const startUtcMs = Date.parse(asked.startUtc);
    const start = Math.round((startUtcMs - frame.startUtcMs) / frame.slotMs);
    const slotMin = frame.slotMs / MINUTE_MS;
    const slots = slotsFor(asked.op, field, own, routeBand(field)[1], slotMin, request.machines);
    const end = Math.min(frame.count, start + slots);
    const person = request.people.findIndex(({ id }) => id === asked.personId);
    const at = i < (request.fixed?.length ?? 0) ? i : null;
    return [{ asked, at, startUtcMs, siteId: field.siteId, start, end, machine, person }];
  });
  const issues: Issue[] = [];
  const meet = (a: PlacedWork, b: PlacedWork) => meets(a, b, frame.slotMs, travelMin);
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
      const overlap = other.start < work.end && work.start < other.end;
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
      if (first.end > second.start) {
        const said = `${first.asked.op} of "${first.asked.fieldId}" (fixed at ${first.asked.startUtc}) must end before its ${second.asked.op} (fixed at ${second.asked.startUtc}) starts`;
        issues.push(clash(named, said, "out-of-order"));
      }
    }
  });
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: placed };
}

function clash({ at, asked }: PlacedWork, said: string, code = "clash"): Issue {
  const path = `fixed[${at}].startUtc`;
  return { path, code, message: `${path}: got ${asked.startUtc}; ${said}` };
}

/** True where nobody can do both: they overlap, or leave no time for the drive. */
function meets(
  a: PlacedWork,
  b: PlacedWork,
  slotMs: number,
  travelMin: Readonly<Record<string, number>>,
): boolean {
  if (a.start < b.end && b.start < a.end) return true;
  const driveMs = (travelMinutes(travelMin, a.siteId, b.siteId) ?? 0) * MINUTE_MS;
  const [first, second] = a.startUtcMs <= b.startUtcMs ? [a, b] : [b, a];
  return first.startUtcMs + (first.end - first.start) * slotMs + driveMs > second.startUtcMs;
}
