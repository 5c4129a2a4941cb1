import { utcLabel } from "../weather/labels.ts";
import type { CancelledVisit, CrewChange, FieldLeft } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type GridJob, momentsOf } from "./grid.ts";
import type { CrewJobAnswer } from "./request.ts";
import { whyMoved } from "./why-moved.ts";
import { dayTime, fieldName, opWord, spokenClock } from "./words.ts";

/** Visits that fell out by now and are still to come, those of the plan before among them; who is back is none. */
export function cancelledVisits(
  { request, nowUtcMs }: BuiltCrew,
  jobs: readonly CrewJobAnswer[],
  changes: readonly CrewChange[],
): readonly CancelledVisit[] {
  const now = changes.flatMap(({ fieldId, op, fromUtc, toUtc }): CancelledVisit[] =>
    fromUtc === null || toUtc !== null ? [] : [{ fieldId, op, startUtc: fromUtc }],
  );
  const before = (request.previous?.cancelled ?? []).map(({ fieldId, op, startUtc }) => ({
    fieldId,
    op,
    startUtc,
  }));
  const all = [...now, ...before];
  const isSame = (a: { readonly fieldId: string; readonly op: string }, b: CancelledVisit) =>
    a.fieldId === b.fieldId && a.op === b.op;
  return all.filter(
    (visit, i) =>
      Date.parse(visit.startUtc) >= nowUtcMs &&
      !jobs.some((job) => isSame(job, visit)) &&
      all.findIndex((one) => isSame(one, visit)) === i,
  );
}

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
      let customerWhy: string | undefined;
      let text: string;
      if (fromMs === null) {
        why = "the field was not in the plan before";
        text = `${name}: ${word} is new, ${said(toMs ?? 0)}.`;
      } else if (toMs === null) {
        const gone = left.find(({ fieldId }) => fieldId === field.id);
        why = gone?.why ?? "the field is not in this plan";
        customerWhy = gone?.customerWhy;
        text = `${name}: ${word} on ${said(fromMs)} falls out. ${why.charAt(0).toUpperCase()}${why.slice(1)}.`;
      } else {
        ({ why, customerWhy } = whyMoved(built, jobs, f, task, before as CrewJobAnswer));
        text = `${name}: ${word} moves from ${said(fromMs)} to ${said(toMs)} because ${why}.`;
      }
      changes.push({
        fieldId: field.id,
        op,
        fromUtc: before?.startUtc ?? null,
        toUtc: toMs === null ? null : utcLabel(toMs),
        why,
        ...(customerWhy === undefined ? {} : { customerWhy }),
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
