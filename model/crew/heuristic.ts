import type { CrewField, CrewJob, CrewResource, WindowsOf } from "./problem.ts";
import { travelMinutes } from "./travel.ts";

const MS_PER_MIN = 60_000;

export interface HeuristicField extends CrewField {
  /** What the field is worth if nothing is lost: area, value per hectare and priority multiplied. */
  readonly worth: number;
}

export interface HeuristicMachine extends CrewResource {
  /** The operation it does. */
  readonly op: string;
}

export interface HeuristicQuestion {
  readonly fields: readonly HeuristicField[];
  readonly machines: readonly HeuristicMachine[];
  readonly people: readonly CrewResource[];
  readonly travelMin: Readonly<Record<string, number>>;
  readonly windowsOf: WindowsOf;
  /** How long the operation takes on the field with that machine, whole slots, ms. */
  readonly durationMs: (fieldId: string, op: string, machineId: string) => number;
  /** The starts that may be planned, ascending. */
  readonly slotsUtcMs: readonly number[];
}

export interface HeuristicPlan {
  readonly jobs: readonly CrewJob[];
  readonly leftFieldIds: readonly string[];
  readonly value: number;
}

/** Fields in order of worth, each at the mowing hour that keeps most of it. Not the best plan: a first one, at once. */
export function firstPlan(question: HeuristicQuestion): HeuristicPlan {
  const jobs: CrewJob[] = [];
  const leftFieldIds: string[] = [];
  let value = 0;
  for (const field of [...question.fields].sort((a, b) => b.worth - a.worth)) {
    let best: { jobs: CrewJob[]; value: number } | null = null;
    for (const mow of question.slotsUtcMs) {
      const tried = placeField(field, mow, jobs, question);
      if (tried !== null && (best === null || tried.value > best.value)) best = tried;
    }
    if (best === null) leftFieldIds.push(field.id);
    else {
      jobs.push(...best.jobs);
      value += best.value;
    }
  }
  return { jobs, leftFieldIds, value };
}

/** Each later operation at its earliest start; the last operation's window states what was lost. */
function placeField(
  field: HeuristicField,
  mow: number,
  taken: readonly CrewJob[],
  question: HeuristicQuestion,
) {
  const placed: CrewJob[] = [];
  let kept = 1;
  for (const [i, op] of field.ops.entries()) {
    const window = i === 0 ? null : question.windowsOf(field.id, op, mow);
    if (i > 0 && window === null) return null;
    const from = Math.max(window?.readyUtcMs ?? mow, placed.at(-1)?.endUtcMs ?? mow);
    const to = window?.deadlineUtcMs ?? mow;
    const job = earliestJob(field, op, from, to, [...taken, ...placed], question);
    if (job === null) return null;
    if (window !== null) kept = 1 - window.valueLoss;
    placed.push(job);
  }
  return { jobs: placed, value: field.worth * kept };
}

function earliestJob(
  field: HeuristicField,
  op: string,
  from: number,
  to: number,
  taken: readonly CrewJob[],
  question: HeuristicQuestion,
): CrewJob | null {
  for (const startUtcMs of question.slotsUtcMs) {
    if (startUtcMs < from) continue;
    if (startUtcMs > to) return null;
    for (const machine of question.machines) {
      if (machine.op !== op) continue;
      const endUtcMs = startUtcMs + question.durationMs(field.id, op, machine.id);
      const person = question.people.find((one) =>
        isFree(one, "personId", field, startUtcMs, endUtcMs, taken, question),
      );
      if (person === undefined || !isFree(machine, "machineId", field, startUtcMs, endUtcMs, taken, question))
        continue;
      return { fieldId: field.id, op, machineId: machine.id, personId: person.id, startUtcMs, endUtcMs };
    }
  }
  return null;
}

/** Inside its hours, and with the drive from the job before and to the job after. */
function isFree(
  who: CrewResource,
  key: "machineId" | "personId",
  field: CrewField,
  startUtcMs: number,
  endUtcMs: number,
  taken: readonly CrewJob[],
  question: HeuristicQuestion,
): boolean {
  if (!who.available.some((s) => s.fromUtcMs <= startUtcMs && endUtcMs <= s.toUtcMs)) return false;
  return taken.every((job) => {
    if (job[key] !== who.id) return true;
    const site = question.fields.find((one) => one.id === job.fieldId)?.siteId ?? "";
    const minutes = travelMinutes(question.travelMin, site, field.siteId);
    if (minutes === null) return false;
    const driveMs = minutes * MS_PER_MIN;
    return job.endUtcMs + driveMs <= startUtcMs || endUtcMs + driveMs <= job.startUtcMs;
  });
}
