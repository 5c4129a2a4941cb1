import type { Issue } from "../limits.ts";
import { MINUTE_MS } from "../weather/clock.ts";
import type { Grid, GridFixed, GridResource } from "./grid.ts";
import { fixedJobs } from "./heuristic/schedule.ts";
import type { CrewOp } from "./keys.ts";
import { slotsFor } from "./rates.ts";
import type { CrewFieldRequest, CrewFixedRequest, CrewPlanRequest } from "./request.ts";
import { routeBand } from "./windows/band.ts";
import type { SlotFrame } from "./windows/field-windows.ts";

/** Work that the new plan has no say in: done, under way or promised. */

/** Work of the plan before that is done or under way, and what the question fixes itself. */
export function allFixed(request: CrewPlanRequest, nowUtcMs: number): CrewFixedRequest[] {
  const given = request.fixed ?? [];
  const begun = (request.previous?.jobs ?? []).filter(
    ({ fieldId, op, machineId, startUtc }) =>
      Date.parse(startUtc) < nowUtcMs &&
      request.fields.some(({ id, ops }) => id === fieldId && ops.includes(op)) &&
      request.machines.some(({ id }) => id === machineId) &&
      !given.some((one) => one.fieldId === fieldId && one.op === op),
  );
  return [...given, ...begun];
}

/** Fixed work that one machine would have to do in two places at once. */
export function fixedClashes(grid: Grid, fixed: readonly CrewFixedRequest[]): Issue[] {
  const jobs = fixedJobs(grid);
  return jobs.flatMap((job, i) => {
    const other = jobs
      .slice(0, i)
      .find((one) => one.machine === job.machine && one.start < job.end && job.start < one.end);
    if (other === undefined) return [];
    const id = grid.fields[job.field]?.id;
    const op = grid.fields[job.field]?.tasks[job.task]?.op;
    const at = fixed.findIndex((one) => one.fieldId === id && one.op === op);
    const path = `fixed[${at}].startUtc`;
    const message = `${path}: got ${fixed[at]?.startUtc}; ${fixed[at]?.machineId} must be free then, and is fixed at "${grid.fields[other.field]?.id}"`;
    return [{ path, code: "clash", message }];
  });
}

/** The fixed work of one task of a field as slots, machine and person of the grid; null where it is free. */
export function fixedInGrid(
  held: readonly CrewFixedRequest[],
  op: CrewOp,
  field: CrewFieldRequest,
  request: CrewPlanRequest,
  frame: SlotFrame,
  people: readonly GridResource[],
): GridFixed | null {
  const found = held.find((one) => one.op === op);
  if (found === undefined) return null;
  const machine = request.machines.findIndex(({ id }) => id === found.machineId);
  const start = Math.round((Date.parse(found.startUtc) - frame.startUtcMs) / frame.slotMs);
  const own = request.machines[machine];
  const slots =
    own === undefined
      ? 1
      : slotsFor(op, field, own, routeBand(field)[1], frame.slotMs / MINUTE_MS, request.machines);
  const named = request.people.findIndex(({ id }) => id === found.personId);
  const free = people.findIndex(({ freeUntil }) => (freeUntil[start] ?? 0) >= start + slots);
  const end = Math.min(frame.count, start + slots);
  return { start, end, machine, person: named >= 0 ? named : Math.max(0, free) };
}
