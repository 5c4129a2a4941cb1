import { MINUTE_MS } from "../weather/clock.ts";
import type { CrewField, CrewJob, CrewResource, CrewRules } from "./problem.ts";
import { travelMinutes } from "./travel.ts";

/** One thing that cannot be carried out: of which job, of which kind, and in a sentence. */
export interface PlanFault {
  readonly fieldId: string;
  readonly op: string | null;
  readonly code:
    | "stranger"
    | "missing"
    | "double"
    | "order"
    | "window"
    | "weather"
    | "lag"
    | "duration"
    | "hours"
    | "travel";
  readonly text: string;
}

/** Everything that makes a plan impossible; empty when it can be carried out. Knows nothing of any solver. */
export function planFaults(rules: CrewRules, jobs: readonly CrewJob[]): PlanFault[] {
  return [
    ...rules.fields.flatMap((field) => fieldFaults(field, rules, jobs)),
    ...rules.machines.flatMap((one) => resourceFaults(one, "machineId", rules, jobs)),
    ...rules.people.flatMap((one) => resourceFaults(one, "personId", rules, jobs)),
    ...jobs.flatMap((job) => strangerFaults(job, rules)),
  ];
}

function strangerFaults(job: CrewJob, rules: CrewRules): PlanFault[] {
  const { fieldId, op } = job;
  const fault = (code: PlanFault["code"], text: string): PlanFault => ({ fieldId, op, code, text });
  const faults: PlanFault[] = [];
  const field = rules.fields.find((one) => one.id === fieldId);
  if (!field?.ops.includes(op)) return [fault("stranger", `${fieldId}: ${op} is not asked for`)];
  if (!rules.machines.some((one) => one.id === job.machineId)) {
    faults.push(fault("stranger", `no machine ${job.machineId}`));
  }
  if (!rules.people.some((one) => one.id === job.personId)) {
    faults.push(fault("stranger", `no person ${job.personId}`));
  }
  if (!(job.endUtcMs > job.startUtcMs)) faults.push(fault("order", `${fieldId} ${op} ends before it starts`));
  if (rules.isFixed(fieldId, op)) return faults;
  const needed = rules.durationMs(fieldId, op, job.machineId);
  if (needed === null) faults.push(fault("stranger", `${job.machineId} cannot do ${op} on ${fieldId}`));
  else if (job.endUtcMs - job.startUtcMs < needed) {
    const hours = (needed / 3_600_000).toFixed(1);
    faults.push(fault("duration", `${fieldId}: ${op} with ${job.machineId} takes ${hours} h`));
  }
  return faults;
}

/** All works or none, in their order, each inside the window of the mowing. Fixed work may stand alone. */
function fieldFaults(field: CrewField, rules: CrewRules, jobs: readonly CrewJob[]): PlanFault[] {
  const own = jobs.filter((job) => job.fieldId === field.id);
  if (own.every(({ op }) => rules.isFixed(field.id, op))) return [];
  const faults: PlanFault[] = [];
  let before: CrewJob | null = null;
  let mow: CrewJob | null = null;
  for (const op of field.ops) {
    const fault = (code: PlanFault["code"], text: string) =>
      faults.push({ fieldId: field.id, op, code, text: `${field.id}: ${text}` });
    const these = own.filter((job) => job.op === op);
    const job = these[0];
    if (job === undefined || these.length > 1) {
      fault(job === undefined ? "missing" : "double", `${op} is planned ${these.length} times`);
      continue;
    }
    if (before !== null && job.startUtcMs < before.endUtcMs) {
      fault("order", `${op} starts before ${before.op} has ended`);
    }
    const lag = rules.lagMs(field.id, op);
    const held = rules.isFixed(field.id, op);
    if (!held && before !== null && lag !== null && job.startUtcMs > before.endUtcMs + lag) {
      fault("lag", `${op} starts more than ${lag / 3_600_000} h after ${before.op}`);
    }
    if (!held) {
      if (mow !== null) {
        const window = rules.windowsOf(field.id, op, mow);
        const inside =
          window === "any" ||
          (window !== null && job.startUtcMs >= window.readyUtcMs && job.endUtcMs <= window.untilUtcMs);
        if (!inside) fault("window", `${op} is outside the window that its mowing opens`);
      }
      const span = { fromUtcMs: job.startUtcMs, toUtcMs: job.endUtcMs };
      if (!rules.mayWork(field.id, op, span))
        fault("weather", `${op} meets rain, dew, soft ground or the dark`);
    }
    before = job;
    mow ??= job;
  }
  return faults;
}

/** Never outside its hours, never two places at once, and time to drive between two fields. */
function resourceFaults(
  who: CrewResource,
  key: "machineId" | "personId",
  rules: CrewRules,
  jobs: readonly CrewJob[],
): PlanFault[] {
  const faults: PlanFault[] = [];
  const own = jobs.filter((job) => job[key] === who.id).sort((a, b) => a.startUtcMs - b.startUtcMs);
  own.forEach((job, i) => {
    const fault = (code: PlanFault["code"], text: string) =>
      faults.push({ fieldId: job.fieldId, op: job.op, code, text: `${who.id}: ${text}` });
    const free = who.available.some((s) => s.fromUtcMs <= job.startUtcMs && job.endUtcMs <= s.toUtcMs);
    if (!free && !rules.isFixed(job.fieldId, job.op)) {
      fault("hours", `${job.fieldId} ${job.op} is outside the working hours`);
    }
    const next = own[i + 1];
    if (next === undefined || (rules.isFixed(job.fieldId, job.op) && rules.isFixed(next.fieldId, next.op)))
      return;
    const minutes = travelMinutes(rules.travelMin, siteOf(job, rules), siteOf(next, rules));
    if (minutes === null) fault("travel", `no travel time from ${job.fieldId} to ${next.fieldId}`);
    else if (next.startUtcMs < job.endUtcMs + minutes * MINUTE_MS) {
      fault("travel", `cannot reach ${next.fieldId} for ${next.op} after ${job.fieldId}`);
    }
  });
  return faults;
}

function siteOf(job: CrewJob, rules: CrewRules): string {
  return rules.fields.find((field) => field.id === job.fieldId)?.siteId ?? "";
}
