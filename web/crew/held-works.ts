import type { CrewJobAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
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

/** The question with works held at their hours, as far as it asks for their fields. */
export function withHeld(asked: CrewPlanRequest, held: readonly CrewJobAnswer[]): CrewPlanRequest {
  const isAsked = ({ fieldId }: CrewJobAnswer) => asked.fields.some(({ id }) => id === fieldId);
  const isHeld = (one: { readonly fieldId: string; readonly op: string }) =>
    held.some(({ fieldId, op }) => fieldId === one.fieldId && op === one.op);
  const own = held.filter(isAsked).map(({ fieldId, op, machineId, personId, startUtc }) => ({
    fieldId,
    op,
    machineId,
    personId,
    startUtc,
  }));
  return { ...asked, fixed: [...(asked.fixed ?? []).filter((one) => !isHeld(one)), ...own] };
}
