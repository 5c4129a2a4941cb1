import { utcLabel } from "../weather/labels.ts";
import type { CancelledVisit, CrewChange, FieldLeft } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type GridJob, momentsOf } from "./grid.ts";
import { type CrewOp, isGather, isPass } from "./keys.ts";
import type { CrewJobAnswer } from "./request.ts";
import { whyMoved } from "./why-moved.ts";
import { whyOtherwise } from "./why-otherwise.ts";
import { changeWords, dayTime, fieldName, hoursWord, opWord, spokenClock } from "./words.ts";

/** Visits that fell out by now and are still to come, those of the plan before among them; who is back is none. */
export function cancelledVisits(
  { request, nowUtcMs }: BuiltCrew,
  jobs: readonly CrewJobAnswer[],
  changes: readonly CrewChange[],
): readonly CancelledVisit[] {
  const visit = (
    fieldId: string,
    op: CrewOp,
    startUtc: string,
    endUtc: string | undefined,
  ): CancelledVisit => ({
    fieldId,
    op,
    startUtc,
    ...(endUtc === undefined ? {} : { endUtc }),
  });
  const now = changes.flatMap(({ fieldId, op, fromUtc, toUtc }): CancelledVisit[] => {
    if (fromUtc === null || toUtc !== null) return [];
    const promised = request.previous?.jobs.find((job) => job.fieldId === fieldId && job.op === op);
    return [visit(fieldId, op, fromUtc, promised?.endUtc)];
  });
  const before = (request.previous?.cancelled ?? []).map(({ fieldId, op, startUtc, endUtc }) =>
    visit(fieldId, op, startUtc, endUtc),
  );
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

/** What about a visit still to come is otherwise than before, beside its hour. */
function otherThan(built: BuiltCrew, before: CrewJobAnswer, now: GridJob): Pick<CrewChange, "takes" | "who"> {
  const { grid, request } = built;
  const startMs = Date.parse(before.startUtc);
  if (startMs < built.nowUtcMs) return {};
  const { fromUtcMs, toUtcMs } = momentsOf(grid, now);
  const [tookMs, takesMs] = [Date.parse(before.endUtc) - startMs, toUtcMs - fromUtcMs];
  const named = (kind: "machines" | "people", id: string) =>
    request[kind].find((one) => one.id === id)?.name ?? request.previous?.names?.[kind]?.[id] ?? id;
  const changed = (word: string, kind: "machines" | "people", id: string, old: string) =>
    id === old ? [] : [`${word} ${named(kind, id)} instead of ${named(kind, old)}`];
  const who = [
    ...changed("with", "machines", grid.machines[now.machine]?.id ?? "", before.machineId),
    ...changed("by", "people", grid.people[now.person]?.id ?? "", before.personId),
  ];
  return {
    ...(takesMs === tookMs ? {} : { takes: `${hoursWord(takesMs)} instead of ${hoursWord(tookMs)}` }),
    ...(who.length === 0 ? {} : { who: who.join(" and ") }),
  };
}

/** Every visit that moved, fell out, is new, takes another time or is done by others than in the plan before, with its reason. */
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
  const movedBecause = whyMoved(built, jobs);
  request.fields.forEach((field, f) => {
    const name = fieldName(field);
    field.ops.forEach((op, task) => {
      const before = previous.jobs.find((job) => job.fieldId === field.id && job.op === op);
      const now = jobs.find((job) => job.field === f && job.task === task);
      const toMs = now === undefined ? null : momentsOf(grid, now).fromUtcMs;
      const fromMs = before === undefined ? null : Date.parse(before.startUtc);
      const other = before === undefined || now === undefined ? {} : otherThan(built, before, now);
      if (fromMs === toMs && other.takes === undefined && other.who === undefined) return;
      const word = opWord(op);
      let why: string;
      let customerWhy: string | undefined;
      let text: string;
      if (fromMs === null) {
        why = previous.jobs.some(({ fieldId }) => fieldId === field.id)
          ? "this work was not in the plan before"
          : "the field had no hours in the plan before";
        text = `${name}: ${word} is new, ${said(toMs ?? 0)}.`;
      } else if (toMs === null) {
        const gone = left.find(({ fieldId }) => fieldId === field.id);
        why = gone?.why ?? "the field is not in this plan";
        customerWhy = gone?.customerWhy;
        text = `${name}: ${word} on ${said(fromMs)} falls out. ${why.charAt(0).toUpperCase()}${why.slice(1)}.`;
      } else {
        ({ why, customerWhy } =
          fromMs === toMs
            ? whyOtherwise(built, jobs, f, task, before as CrewJobAnswer)
            : movedBecause(f, task));
        text = `${name}: ${word} ${changeWords(said(fromMs), said(toMs), other)} because ${why}.`;
      }
      changes.push({
        fieldId: field.id,
        op,
        fromUtc: before?.startUtc ?? null,
        toUtc: toMs === null ? null : utcLabel(toMs),
        ...other,
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
    const isGathered = built.placed.some(
      ({ asked, moments }) =>
        asked.fieldId === before.fieldId && isGather(asked.op) && moments.fromUtcMs < built.nowUtcMs,
    );
    const why =
      isPass(before.op) && isGathered
        ? "its crop is gathered without it"
        : "the work is not asked for any more";
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
