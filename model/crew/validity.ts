import { once } from "../once.ts";
import { MINUTE_MS } from "../weather/clock.ts";
import { type CrewOp, OP_WORDS } from "./keys.ts";
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

interface Named {
  readonly id: string;
  readonly name?: string | null | undefined;
}

/** What people call it: the name where there is one. */
function called(list: readonly Named[], id: string): string {
  return list.find((one) => one.id === id)?.name ?? id;
}

function word(op: string): string {
  return OP_WORDS[op as CrewOp] ?? op;
}

function strangerFaults(job: CrewJob, rules: CrewRules): PlanFault[] {
  const { fieldId, op } = job;
  const name = called(rules.fields, fieldId);
  const machine = called(rules.machines, job.machineId);
  const fault = (code: PlanFault["code"], text: string): PlanFault => ({ fieldId, op, code, text });
  const faults: PlanFault[] = [];
  const field = rules.fields.find((one) => one.id === fieldId);
  if (!field?.ops.includes(op)) return [fault("stranger", `${name}: ${word(op)} is not asked for`)];
  if (!rules.machines.some((one) => one.id === job.machineId)) {
    faults.push(fault("stranger", `no machine ${job.machineId}`));
  }
  if (!rules.people.some((one) => one.id === job.personId)) {
    faults.push(fault("stranger", `no person ${job.personId}`));
  }
  if (!(job.endUtcMs > job.startUtcMs))
    faults.push(fault("order", `${name}: ${word(op)} ends before it starts`));
  if (rules.isFixed(fieldId, op)) return faults;
  const needed = rules.durationMs(fieldId, op, job.machineId);
  if (needed === null) faults.push(fault("stranger", `${name}: ${machine} cannot do the ${word(op)}`));
  else if (job.endUtcMs - job.startUtcMs < needed) {
    const hours = (needed / 3_600_000).toFixed(1);
    faults.push(fault("duration", `${name}: ${word(op)} with ${machine} takes ${hours} h`));
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
      faults.push({ fieldId: field.id, op, code, text: `${field.name ?? field.id}: ${text}` });
    const these = own.filter((job) => job.op === op);
    const job = these[0];
    if (job === undefined || these.length > 1) {
      fault(job === undefined ? "missing" : "double", `${word(op)} is planned ${these.length} times`);
      continue;
    }
    const held = rules.isFixed(field.id, op);
    const bothHeld = held && before !== null && rules.isFixed(field.id, before.op);
    if (before !== null && !bothHeld && job.startUtcMs < before.endUtcMs) {
      fault("order", `${word(op)} starts before the ${word(before.op)} has ended`);
    }
    const lag = rules.lagMs(field.id, op);
    if (!held && before !== null && lag !== null && job.startUtcMs > before.endUtcMs + lag) {
      fault("lag", `${word(op)} starts more than ${lag / 3_600_000} h after the ${word(before.op)}`);
    }
    if (!held) {
      const isDry = once(() => rules.isDryAllTheSame?.(field.id, op, own) === true);
      if (mow !== null) {
        const window = rules.windowsOf(field.id, op, mow, own);
        const inside =
          window === "any" ||
          (window !== null && job.startUtcMs >= window.readyUtcMs && job.endUtcMs <= window.untilUtcMs);
        if (!inside && !isDry()) fault("window", `${word(op)} is outside the window that its mowing opens`);
      }
      const span = { fromUtcMs: job.startUtcMs, toUtcMs: job.endUtcMs };
      if (!rules.mayWork(field.id, op, span) && !isDry())
        fault(
          "weather",
          rules.meets?.(field.id, op, span, own) ?? `${word(op)} meets weather, dark or crop not fit for it`,
        );
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
  // A cart is where its chopper is.
  const leads = (id: string) =>
    key === "machineId" &&
    rules.machines.some((one) => one.id === id && one.along?.includes(who.id) === true);
  const own = jobs
    .filter((job) => job[key] === who.id || leads(job[key]))
    .sort((a, b) => a.startUtcMs - b.startUtcMs);
  own.forEach((job, i) => {
    const fault = (code: PlanFault["code"], text: string) =>
      faults.push({ fieldId: job.fieldId, op: job.op, code, text: `${who.name ?? who.id}: ${text}` });
    const free = who.available.some((s) => s.fromUtcMs <= job.startUtcMs && job.endUtcMs <= s.toUtcMs);
    if (!free && !rules.isFixed(job.fieldId, job.op)) {
      const work = `${word(job.op)} of ${called(rules.fields, job.fieldId)}`;
      fault("hours", key === "machineId" ? `away at the ${work}` : `${work} is outside the working hours`);
    }
    const next = own[i + 1];
    // Of two works of the one that it follows that one is told.
    if (next === undefined || (job[key] !== who.id && job[key] === next[key])) return;
    if (rules.isFixed(job.fieldId, job.op) && rules.isFixed(next.fieldId, next.op)) return;
    const minutes = travelMinutes(rules.travelMin, siteOf(job, rules), siteOf(next, rules));
    if (minutes === null)
      fault(
        "travel",
        `no travel time from ${called(rules.fields, job.fieldId)} to ${called(rules.fields, next.fieldId)}`,
      );
    else if (next.fieldId === job.fieldId && next.startUtcMs < job.endUtcMs) {
      fault(
        "travel",
        `${word(job.op)} and ${word(next.op)} of ${called(rules.fields, job.fieldId)} are at the same time`,
      );
    } else if (next.startUtcMs < job.endUtcMs + minutes * MINUTE_MS) {
      fault(
        "travel",
        `cannot reach ${called(rules.fields, next.fieldId)} for the ${word(next.op)} after ${called(rules.fields, job.fieldId)}`,
      );
    }
  });
  return faults;
}

function siteOf(job: CrewJob, rules: CrewRules): string {
  return rules.fields.find((field) => field.id === job.fieldId)?.siteId ?? "";
}
