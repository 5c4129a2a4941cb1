import type { CrewField, CrewJob, CrewResource, WindowsOf } from "./problem.ts";
import { travelMinutes } from "./travel.ts";

const MS_PER_MIN = 60_000;

export interface PlanToCheck {
  readonly fields: readonly CrewField[];
  readonly machines: readonly CrewResource[];
  readonly people: readonly CrewResource[];
  readonly travelMin: Readonly<Record<string, number>>;
  readonly windowsOf: WindowsOf;
  readonly jobs: readonly CrewJob[];
}

/** Everything that makes a plan impossible, in sentences; empty when it can be carried out. Knows nothing of any solver. */
export function planFaults(plan: PlanToCheck): string[] {
  return [
    ...plan.fields.flatMap((field) => fieldFaults(field, plan)),
    ...plan.machines.flatMap((machine) =>
      resourceFaults(
        machine,
        plan.jobs.filter((job) => job.machineId === machine.id),
        plan,
      ),
    ),
    ...plan.people.flatMap((person) =>
      resourceFaults(
        person,
        plan.jobs.filter((job) => job.personId === person.id),
        plan,
      ),
    ),
    ...plan.jobs.flatMap((job) => strangerFaults(job, plan)),
  ];
}

function strangerFaults(job: CrewJob, plan: PlanToCheck): string[] {
  const field = plan.fields.find((one) => one.id === job.fieldId);
  const faults: string[] = [];
  if (!field?.ops.includes(job.op)) faults.push(`${job.fieldId}: ${job.op} is not asked for`);
  if (!plan.machines.some((one) => one.id === job.machineId)) faults.push(`no machine ${job.machineId}`);
  if (!plan.people.some((one) => one.id === job.personId)) faults.push(`no person ${job.personId}`);
  if (!(job.endUtcMs > job.startUtcMs)) faults.push(`${job.fieldId} ${job.op} ends before it starts`);
  return faults;
}

/** All operations or none, in their order, each inside the window of the mowing hour. */
function fieldFaults(field: CrewField, plan: PlanToCheck): string[] {
  const own = plan.jobs.filter((job) => job.fieldId === field.id);
  if (own.length === 0) return [];
  const faults: string[] = [];
  let before: CrewJob | null = null;
  let first: CrewJob | null = null;
  for (const op of field.ops) {
    const these = own.filter((job) => job.op === op);
    const job = these[0];
    if (job === undefined || these.length > 1) {
      faults.push(`${field.id}: ${op} is planned ${these.length} times`);
      continue;
    }
    if (before !== null && job.startUtcMs < before.endUtcMs) {
      faults.push(`${field.id}: ${op} starts before ${before.op} has ended`);
    }
    if (first !== null) {
      const window = plan.windowsOf(field.id, op, first.startUtcMs);
      const inside =
        window !== null && job.startUtcMs >= window.readyUtcMs && job.startUtcMs <= window.deadlineUtcMs;
      if (!inside) faults.push(`${field.id}: ${op} starts outside its window`);
    }
    before = job;
    first ??= job;
  }
  return faults;
}

/** Never outside its hours, never two places at once, and time to drive between two fields. */
function resourceFaults(who: CrewResource, jobs: readonly CrewJob[], plan: PlanToCheck): string[] {
  const faults: string[] = [];
  const inOrder = [...jobs].sort((a, b) => a.startUtcMs - b.startUtcMs);
  inOrder.forEach((job, i) => {
    const free = who.available.some((s) => s.fromUtcMs <= job.startUtcMs && job.endUtcMs <= s.toUtcMs);
    if (!free) faults.push(`${who.id}: ${job.fieldId} ${job.op} is outside the working hours`);
    const next = inOrder[i + 1];
    if (next === undefined) return;
    const minutes = travelMinutes(plan.travelMin, siteOf(job, plan), siteOf(next, plan));
    if (minutes === null) faults.push(`${who.id}: no travel time from ${job.fieldId} to ${next.fieldId}`);
    else if (next.startUtcMs < job.endUtcMs + minutes * MS_PER_MIN) {
      faults.push(`${who.id}: cannot reach ${next.fieldId} for ${next.op} after ${job.fieldId}`);
    }
  });
  return faults;
}

function siteOf(job: CrewJob, plan: PlanToCheck): string {
  return plan.fields.find((field) => field.id === job.fieldId)?.siteId ?? "";
}
