import { utcLabel } from "../weather/labels.ts";
import type { CrewChange, FieldLeft } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type GridField, type GridJob, middleSlot, momentsOf, slotUtcMs } from "./grid.ts";
import { KIND_OF_OP } from "./keys.ts";
import type { CrewJobAnswer } from "./request.ts";
import { dayTime, fieldName, kindWord, opWord, spokenClock } from "./words.ts";

/** Every visit that moved, fell out or is new against the plan before, each with its reason. */
export function changesOf(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  left: readonly FieldLeft[],
): CrewChange[] {
  const { grid, request } = built;
  const clock = spokenClock(built);
  const { previous } = request;
  if (previous == null) return [];
  const said = (utcMs: number) => dayTime(utcMs, clock);
  const changes: CrewChange[] = [];
  request.fields.forEach((field, f) => {
    const name = fieldName(field);
    field.ops.forEach((op, task) => {
      const before = previous.jobs.find((job) => job.fieldId === field.id && job.op === op);
      const now = jobs.find((job) => job.field === f && job.task === task);
      const toMs = now === undefined ? null : momentsOf(grid, now).fromUtcMs;
      const fromMs = before === undefined ? null : Date.parse(before.startUtc);
      if (fromMs === toMs) return;
      const word = opWord(op);
      let why: string;
      let text: string;
      if (fromMs === null) {
        why = "the field was not in the plan before";
        text = `${name}: ${word} is new, ${said(toMs ?? 0)}.`;
      } else if (toMs === null) {
        why = left.find(({ fieldId }) => fieldId === field.id)?.why ?? "the field is not in this plan";
        text = `${name}: ${word} on ${said(fromMs)} falls out: ${why}.`;
      } else {
        why = whyMoved(built, jobs, f, task, before as CrewJobAnswer);
        text = `${name}: ${word} moves from ${said(fromMs)} to ${said(toMs)} because ${why}.`;
      }
      changes.push({
        fieldId: field.id,
        op,
        fromUtc: before?.startUtc ?? null,
        toUtc: toMs === null ? null : utcLabel(toMs),
        why,
        text,
      });
    });
  });
  const called = previous.names?.fields ?? {};
  for (const before of previous.jobs) {
    // What is done is no visit any more that somebody waits for.
    if (Date.parse(before.startUtc) < built.nowUtcMs) continue;
    if (request.fields.some(({ id, ops }) => id === before.fieldId && ops.includes(before.op))) continue;
    const why = "the work is not asked for any more";
    changes.push({
      fieldId: before.fieldId,
      op: before.op,
      fromUtc: before.startUtc,
      toUtc: null,
      why,
      text: `${called[before.fieldId] ?? request.fields.find(({ id }) => id === before.fieldId)?.name ?? before.fieldId}: ${opWord(before.op)} on ${said(Date.parse(before.startUtc))} falls out because ${why}.`,
    });
  }
  return changes;
}

/** What stands in the way of the hour that was promised, the first that is true. */
function whyMoved(
  built: BuiltCrew,
  jobs: readonly GridJob[],
  f: number,
  task: number,
  before: CrewJobAnswer,
): string {
  const { grid, request } = built;
  const field = grid.fields[f] as GridField;
  const own = field.tasks[task];
  const now = jobs.find((job) => job.field === f && job.task === task);
  const mow = jobs.find((job) => job.field === f && job.task === 0);
  if (own === undefined || now === undefined || mow === undefined) return "the plan around it changed";
  if (own.fixed !== null) return "it was fixed at another hour";
  const said = (slot: number) => dayTime(slotUtcMs(grid, slot), spokenClock(built));
  const start = Math.round((Date.parse(before.startUtc) - grid.startUtcMs) / grid.slotMs);
  const end = start + (now.end - now.start);
  if (start >= grid.count) return "the forecast does not reach that far";
  const missed = built.notBegun.some(({ fieldId, op }) => fieldId === field.id && op === own.op);
  if (missed) return `the ${kindWord(KIND_OF_OP[own.op])} was away when it was due`;
  if (start < grid.nowSlot) return "that hour is past";
  const q = middleSlot(mow.start, mow.end);
  const mowMoved = field.tasks[0]?.before !== null && field.tasks[0]?.before !== mow.start;
  if (own.ready !== null && own.until !== null) {
    const [ready, until] = [own.ready[q] as number, own.until[q] as number];
    const since = mowMoved && task > 0 ? ` after mowing on ${said(mow.start)}` : "";
    if (start < ready) return `the crop is not ready for it before ${said(ready)}${since}`;
    if (end > until) return `its window closes at ${said(until)}: rain may come, or it gets too dry`;
  }
  if ((own.openUntil[start] as number) < end)
    return "rain, dew, soft ground or darkness stands against that hour";
  if (task > 0 && start < (jobs.find((job) => job.field === f && job.task === task - 1)?.end ?? 0)) {
    return "the work before it ends later";
  }
  const word = kindWord(KIND_OF_OP[own.op]);
  const machine = grid.machines.findIndex(({ id }) => id === before.machineId);
  if (machine < 0) return `the ${word} that was to do it is gone`;
  if ((grid.machines[machine]?.freeUntil[start] as number) < end) return `the ${word} is off at that hour`;
  const other = jobs.find(
    (job) => job.machine === machine && job.field !== f && job.start < end && start < job.end,
  );
  const at = other === undefined ? undefined : request.fields[other.field];
  if (at !== undefined) return `the ${word} is at ${fieldName(at)} then`;
  if (!grid.people.some(({ freeUntil }) => (freeUntil[start] as number) >= end))
    return "nobody works at that hour";
  return "more is brought in this way";
}
