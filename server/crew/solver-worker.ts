import { parentPort, workerData } from "node:worker_threads";
import loadHighs from "highs";
import { type MilpEngine, solveMilp } from "../../model/crew/milp/solve.ts";
import type { SolverQuestion } from "../../model/crew/solve-grid.ts";

/** The thread of one solve. The engine is synchronous: what is found and proved meanwhile is posted at once. */

export type SolverMessage =
  | { readonly kind: "plan"; readonly point: Float64Array }
  | { readonly kind: "bound"; readonly bound: number }
  | {
      readonly kind: "done";
      readonly point: Float64Array | null;
      readonly bound: number;
      readonly closed: boolean;
    };

const post = (message: SolverMessage) => parentPort?.postMessage(message);

const { milp, ...options }: SolverQuestion = workerData;
const engine: MilpEngine = await loadHighs();
const { point, bound, closed } = solveMilp(engine, milp, {
  ...options,
  onPlan: (found) => post({ kind: "plan", point: found }),
  onBound: (proved) => post({ kind: "bound", bound: proved }),
});
post({ kind: "done", point, bound, closed });
