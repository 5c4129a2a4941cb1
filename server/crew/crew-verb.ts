import type { CrewPlanAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import { crewPlanRequest } from "../schemas/crew-plan.ts";
import type { Answering, Verb } from "../verb.ts";

/** Sixty sites of two hundred members with a handful of columns each. */
const MAX_CREW_PARTS = 100_000;

export function crewVerb(
  answer: Answering<CrewPlanRequest, CrewPlanAnswer>,
): Verb<CrewPlanRequest, CrewPlanAnswer> {
  return { schema: crewPlanRequest, answer, maxParts: MAX_CREW_PARTS };
}
