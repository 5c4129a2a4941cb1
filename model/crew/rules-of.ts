import { utcLabel } from "../weather/labels.ts";
import { meetsWords, standsAgainst } from "./against.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { isDryAllTheSame } from "./dry-all-the-same.ts";
import { courseOf, type GridJob, type GridResource, momentsOf, slotUtcMs } from "./grid.ts";
import { lagMsOf } from "./grid-field.ts";
import { type CrewOp, isGather } from "./keys.ts";
import type { CrewJob, CrewResource, CrewRules, Span } from "./problem.ts";
import type { CrewJobAnswer } from "./request.ts";
import { opWord } from "./words.ts";

/**
 * The rules of a task in moments, for the check of a plan that people have drawn or a solver has found.
 *
 * @param judged which gatherings may lie outside their windows where the replay finds the crop dry: those that are held
 *   at their hours, or those too that somebody draws
 */
export function rulesOf(built: BuiltCrew, judged: "held" | "all" = "held"): CrewRules {
  const { grid, request } = built;
  const slotOf = (utcMs: number) => (utcMs - grid.startUtcMs) / grid.slotMs;
  const taskOf = (fieldId: string, op: string) =>
    grid.fields.find(({ id }) => id === fieldId)?.tasks.find((task) => task.op === op);
  const resource = (
    { id, freeUntil, ownUntil, along }: GridResource,
    named: readonly { readonly id: string; readonly name?: string | null | undefined }[],
  ): CrewResource => ({
    id,
    name: named.find((one) => one.id === id)?.name,
    available: stretches(built, ownUntil ?? freeUntil),
    ...(along === undefined ? {} : { along: along.map((k) => grid.machines[k]?.id ?? "") }),
  });
  return {
    fields: request.fields,
    machines: grid.machines.map((one) => resource(one, request.machines)),
    people: grid.people.map((one) => resource(one, request.people)),
    travelMin: built.travelMin,
    windowsOf: (fieldId, op, mow, own) => {
      const field = grid.fields.find(({ id }) => id === fieldId);
      const task = taskOf(fieldId, op);
      if (field === undefined || task?.ready == null || task.until === null) return "any";
      const works = field.tasks.map((one, i) => {
        const job = i === 0 ? mow : own.find((other) => other.op === one.op);
        if (job === undefined) return undefined;
        return { start: Math.floor(slotOf(job.startUtcMs)), end: Math.ceil(slotOf(job.endUtcMs)) };
      });
      const course = courseOf(field, works);
      const ready = task.ready[course] ?? -1;
      if (ready < 0) return null;
      return { readyUtcMs: slotUtcMs(grid, ready), untilUtcMs: slotUtcMs(grid, task.until[course] ?? -1) };
    },
    mayWork: (fieldId, op, { fromUtcMs, toUtcMs }) => {
      const task = taskOf(fieldId, op);
      const from = Math.floor(slotOf(fromUtcMs));
      const to = Math.ceil(slotOf(toUtcMs));
      if (from < grid.nowSlot) return false;
      return task !== undefined && (task.openUntil[from] ?? from) >= to;
    },
    meets: (fieldId, op, span, own) => {
      if (slotOf(span.fromUtcMs) < grid.nowSlot) return `${opWord(op as CrewOp)} would begin in the past`;
      if (slotOf(span.toUtcMs) > grid.count) return `${opWord(op as CrewOp)} ends after the days of the plan`;
      return meetsWords(op as CrewOp, standsAgainst(built, fieldId, op as CrewOp, span, own));
    },
    durationMs: (fieldId, op, machineId) => {
      const machine = grid.machines.findIndex(({ id }) => id === machineId);
      const slots = taskOf(fieldId, op)?.slotsOf[machine] ?? 0;
      return slots === 0 ? null : slots * grid.slotMs;
    },
    lagMs: (fieldId, op) => {
      const task = taskOf(fieldId, op);
      const rake = taskOf(fieldId, "rake");
      return task === undefined ? null : lagMsOf(task.op, rake !== undefined && rake.fixed === null);
    },
    isDryAllTheSame: (fieldId, op, own) => {
      if (!isGather(op) || (judged === "held" && taskOf(fieldId, op)?.fixed == null)) return false;
      return isDryAllTheSame(built, fieldId, own);
    },
    isFixed: (fieldId, op) => (taskOf(fieldId, op)?.fixed ?? null) !== null,
  };
}

/** Stretches of slots as spans of time. */
export function stretches(built: Pick<BuiltCrew, "grid">, until: Int32Array): Span[] {
  const { grid } = built;
  const spans: Span[] = [];
  for (let t = 0; t < until.length; ) {
    const end = until[t] as number;
    if (end > t) spans.push({ fromUtcMs: slotUtcMs(grid, t), toUtcMs: slotUtcMs(grid, end) });
    t = Math.max(end, t + 1);
  }
  return spans;
}

/** A job of the grid in moments. */
export function crewJob(built: BuiltCrew, job: GridJob): CrewJob & { readonly op: CrewOp } {
  const { grid } = built;
  const field = grid.fields[job.field];
  const { fromUtcMs, toUtcMs } = momentsOf(grid, job);
  return {
    fieldId: field?.id ?? "",
    op: field?.tasks[job.task]?.op ?? "mow",
    machineId: grid.machines[job.machine]?.id ?? "",
    personId: grid.people[job.person]?.id ?? "",
    startUtcMs: fromUtcMs,
    endUtcMs: toUtcMs,
  };
}

/** The same from an answer or a drag. */
export function toCrewJob({ startUtc, endUtc, ...job }: CrewJobAnswer): CrewJob & { readonly op: CrewOp } {
  return { ...job, startUtcMs: Date.parse(startUtc), endUtcMs: Date.parse(endUtc) };
}

/** A job in moments as an answer has it. */
export function jobLabels({ startUtcMs, endUtcMs, op, ...rest }: CrewJob): CrewJobAnswer {
  return { ...rest, op: op as CrewOp, startUtc: utcLabel(startUtcMs), endUtc: utcLabel(endUtcMs) };
}

/** A job of the grid as an answer has it. */
export function jobAnswer(built: BuiltCrew, job: GridJob): CrewJobAnswer {
  return jobLabels(crewJob(built, job));
}

/** Jobs of an answer in the slots of the grid; one of a field, machine or person that is not there is passed over. */
export function gridJobs({ grid }: BuiltCrew, jobs: readonly CrewJobAnswer[]): GridJob[] {
  return jobs.flatMap((job): GridJob[] => {
    const field = grid.fields.findIndex(({ id }) => id === job.fieldId);
    const task = grid.fields[field]?.tasks.findIndex(({ op }) => op === job.op) ?? -1;
    const machine = grid.machines.findIndex(({ id }) => id === job.machineId);
    const person = grid.people.findIndex(({ id }) => id === job.personId);
    if (field < 0 || task < 0 || machine < 0 || person < 0) return [];
    const fixed = grid.fields[field]?.tasks[task]?.fixed;
    if (fixed != null) return [{ field, task, ...fixed }];
    const start = Math.round((Date.parse(job.startUtc) - grid.startUtcMs) / grid.slotMs);
    const slots = grid.fields[field]?.tasks[task]?.slotsOf[machine] ?? 0;
    return [{ field, task, machine, person, start, end: start + slots }];
  });
}
