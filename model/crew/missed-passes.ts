import type { HeldWork } from "./fixed-work.ts";
import { type CrewOp, isGather, isPass } from "./keys.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";
import { fieldName, listWords, opWord } from "./words.ts";

/** Tedding and raking that nobody told as done of crop whose gathering has begun: there is nothing left for them to do. */

interface WithoutMissed {
  readonly request: CrewPlanRequest;
  /** What is taken as not needed, in words. */
  readonly assumed: readonly string[];
}

/** The question without those works, so that a field is finished by what follows its gathering. */
export function withoutMissedPasses(
  request: CrewPlanRequest,
  held: readonly HeldWork[],
  nowUtcMs: number,
): WithoutMissed {
  const isHeld = ({ id }: CrewFieldRequest, op: CrewOp) =>
    held.some(({ asked }) => asked.fieldId === id && asked.op === op);
  const gathered = ({ id }: CrewFieldRequest) =>
    held.find(
      ({ asked }) => asked.fieldId === id && isGather(asked.op) && Date.parse(asked.startUtc) < nowUtcMs,
    );
  const assumed: string[] = [];
  const fields = request.fields.map((field): CrewFieldRequest => {
    const gather = gathered(field);
    const missed = gather === undefined ? [] : field.ops.filter((op) => isPass(op) && !isHeld(field, op));
    if (gather === undefined || missed.length === 0) return field;
    const [were, count, they, them] =
      missed.length === 1 ? ["was", "counts", "it was", "it"] : ["were", "count", "they were", "them"];
    assumed.push(
      `${fieldName(field)}: ${listWords(missed.map(opWord))} ${were} not told as done before its ${opWord(gather.asked.op)}, and ${count} as not needed any more: if ${they} done, hold ${them} at the hours at which ${they} done.`,
    );
    return { ...field, ops: field.ops.filter((op) => !missed.includes(op)) };
  });
  return assumed.length === 0 ? { request, assumed } : { request: { ...request, fields }, assumed };
}
