import type { CrewJobAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import { utcMs } from "../format/farm-time.ts";
import type { CrewDraft } from "./crew-draft.ts";
import { utcText } from "./MomentField.tsx";

/** A work as somebody moved it. */
export function movedBy(job: CrewJobAnswer, byMs: number): CrewJobAnswer {
  const shift = (utc: string) => utcText(Date.parse(utc) + byMs);
  return { ...job, startUtc: shift(job.startUtc), endUtc: shift(job.endUtc) };
}

/** Held works that the lists still know. */
export function stillThere(held: readonly CrewJobAnswer[], { fields, machines, people }: CrewDraft) {
  return held.filter(
    ({ fieldId, op, machineId, personId }) =>
      fields.some(({ id, ops }) => id === fieldId && ops.includes(op)) &&
      machines.some(({ id }) => id === machineId) &&
      people.some(({ id }) => id === personId),
  );
}

type Work = Pick<CrewJobAnswer, "fieldId" | "op">;

const isSame = (one: Work, other: Work) => one.fieldId === other.fieldId && one.op === other.op;

/** A list of works without one of them. */
export function without<W extends Work>(works: readonly W[], work: Work): readonly W[] {
  return works.filter((one) => !isSame(one, work));
}

/** The works as they stand in a plan where it has them: back from where somebody moved them. */
export function asIn(
  jobs: readonly CrewJobAnswer[],
  works: readonly CrewJobAnswer[],
): readonly CrewJobAnswer[] {
  return works.map((work) => jobs.find((job) => isSame(job, work)) ?? work);
}

/** How many works were moved that nobody holds: planned anew, they keep no hour. */
export function movedLoose(
  planned: readonly CrewJobAnswer[],
  moved: readonly CrewJobAnswer[],
  isHeld: (work: Work) => boolean,
): number {
  const isMoved = (job: CrewJobAnswer) =>
    planned.some((one) => isSame(one, job) && utcMs(one.startUtc) !== utcMs(job.startUtc));
  return moved.filter((job) => isMoved(job) && !isHeld(job)).length;
}

/** The question with works held at their hours, as far as it asks for their fields. */
export function withHeld(asked: CrewPlanRequest, works: readonly CrewJobAnswer[]): CrewPlanRequest {
  const isAsked = ({ fieldId }: CrewJobAnswer) => asked.fields.some(({ id }) => id === fieldId);
  // What the question itself holds at that hour it says better: to the minute, and until when.
  const isKnown = (job: CrewJobAnswer) =>
    (asked.fixed ?? []).some((one) => isSame(one, job) && utcMs(one.startUtc) === utcMs(job.startUtc));
  const held = works.filter((job) => !isKnown(job));
  const isHeld = (one: Work) => held.some((job) => isSame(job, one));
  const hasEnd = (job: CrewJobAnswer) =>
    (asked.fixed ?? []).some((one) => isSame(one, job) && one.endUtc != null);
  const own = held.filter(isAsked).map((job) => {
    const { fieldId, op, machineId, personId, startUtc, endUtc } = job;
    return { fieldId, op, machineId, personId, startUtc, ...(hasEnd(job) ? { endUtc } : {}) };
  });
  return { ...asked, fixed: [...(asked.fixed ?? []).filter((one) => !isHeld(one)), ...own] };
}
