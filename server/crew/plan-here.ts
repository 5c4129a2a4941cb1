import { type CrewPlanAnswer, type CrewPlanRequest, planCrew } from "../../model/crew/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { threadSolver } from "./thread-solver.ts";

/** The plan worked out in this thread, with the solver in one of its own; `signal` ends the search with what there is. */
export function crewPlanHere(
  request: CrewPlanRequest,
  signal?: AbortSignal,
): Promise<Outcome<CrewPlanAnswer>> {
  const beganMs = performance.now();
  return planCrew(request, {
    solver: threadSolver(signal),
    stop: () => signal?.aborted === true,
    elapsedS: () => (performance.now() - beganMs) / 1000,
  });
}
