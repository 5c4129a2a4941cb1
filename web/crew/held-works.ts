import {
  type CrewFixedRequest,
  type CrewJobAnswer,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  workMs,
} from "../../model/crew/index.ts";
import { utcMs } from "../format/farm-time.ts";
import type { CrewDraft } from "./crew-draft.ts";
import { utcText } from "./MomentField.tsx";

/** A work as somebody moved it. */
export function movedBy(job: CrewJobAnswer, byMs: number): CrewJobAnswer {
  const shift = (utc: string) => utcText(Date.parse(utc) + byMs);
  return { ...job, startUtc: shift(job.startUtc), endUtc: shift(job.endUtc) };
}

/** Who does a work: a machine, a person. */
export type Hands = Partial<Pick<CrewJobAnswer, "machineId" | "personId">>;

/**
 * A work given to another machine or person, from the same hour on and as long as that machine takes; null where the machine
 * is not there or is of another kind, and where it is theirs already.
 */
export function doneBy(
  job: CrewJobAnswer,
  hands: Hands,
  request: CrewPlanRequest,
  plan: Pick<CrewPlanAnswer, "carts" | "slotMin">,
): CrewJobAnswer | null {
  const now = { ...job, ...hands };
  if (now.machineId === job.machineId) return now.personId === job.personId ? null : now;
  const takesMs = workMs(request, plan, job, now.machineId);
  return takesMs === null ? null : { ...now, endUtc: utcText(utcMs(job.startUtc) + takesMs) };
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

/** How many works were moved or given to others that nobody holds: planned anew, they keep neither hour nor hands. */
export function movedLoose(
  planned: readonly CrewJobAnswer[],
  moved: readonly CrewJobAnswer[],
  isHeld: (work: Work) => boolean,
): number {
  const isMoved = (job: CrewJobAnswer) =>
    planned.some(
      (one) =>
        isSame(one, job) &&
        (utcMs(one.startUtc) !== utcMs(job.startUtc) ||
          one.machineId !== job.machineId ||
          one.personId !== job.personId),
    );
  return moved.filter((job) => isMoved(job) && !isHeld(job)).length;
}

/** The question with works held at their hours, as far as it asks for their fields. */
export function withHeld(asked: CrewPlanRequest, works: readonly CrewJobAnswer[]): CrewPlanRequest {
  const isAsked = ({ fieldId }: CrewJobAnswer) => asked.fields.some(({ id }) => id === fieldId);
  // What the question itself holds at that hour with that machine it says better: to the minute, and until when.
  const isKnown = (one: CrewFixedRequest, job: CrewJobAnswer) =>
    isSame(one, job) &&
    utcMs(one.startUtc) === utcMs(job.startUtc) &&
    one.machineId === job.machineId &&
    (one.personId == null || one.personId === job.personId);
  const before = asked.fixed ?? [];
  const kept = before.flatMap((one) => {
    const job = works.find((work) => isSame(work, one));
    if (job === undefined) return [one];
    // Who does it is held with the rest.
    return isKnown(one, job) ? [{ ...one, personId: job.personId }] : [];
  });
  const isKept = (job: CrewJobAnswer) => kept.some((one) => isSame(one, job));
  const hasEnd = (job: CrewJobAnswer) => before.some((one) => isSame(one, job) && one.endUtc != null);
  const own = works
    .filter((job) => isAsked(job) && !isKept(job))
    .map((job) => {
      const { fieldId, op, machineId, personId, startUtc, endUtc } = job;
      return { fieldId, op, machineId, personId, startUtc, ...(hasEnd(job) ? { endUtc } : {}) };
    });
  return { ...asked, fixed: [...kept, ...own] };
}
