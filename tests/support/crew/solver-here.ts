import loadHighs from "highs";
import type { MilpEngine } from "../../../model/crew/milp/engine.ts";
import { type Solver, type SolverAnswer, tellSolve } from "../../../model/crew/solve-grid.ts";

/** The solver as its thread runs it, without the thread. */
export async function solverHere(): Promise<Solver> {
  const engine: MilpEngine = await loadHighs();
  return async (question) => {
    const beganMs = performance.now();
    let answer: SolverAnswer | null = null;
    tellSolve(
      engine,
      question,
      (told) => {
        if (told.kind === "done") answer = told;
      },
      () => (performance.now() - beganMs) / 1000,
    );
    if (answer === null) throw new Error("the solver told no end");
    return answer;
  };
}
