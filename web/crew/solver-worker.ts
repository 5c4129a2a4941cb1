import loadHighs from "highs";
import wasmUrl from "highs/runtime?url";
import { type MilpEngine, type SolverQuestion, solveMilp } from "../../model/crew/index.ts";

/** One solve, in a worker of its own because the engine hears nothing while it works: what it finds is posted at once. */

export type SolverTell =
  | { readonly kind: "plan"; readonly point: Float64Array }
  | { readonly kind: "bound"; readonly bound: number }
  | {
      readonly kind: "done";
      readonly point: Float64Array | null;
      readonly bound: number;
      readonly closed: boolean;
    };

const tell = (message: SolverTell) => postMessage(message);

addEventListener("message", async ({ data }: MessageEvent<SolverQuestion>) => {
  const { milp, ...options } = data;
  const engine: MilpEngine = await loadHighs({ locateFile: () => wasmUrl });
  const { point, bound, closed } = solveMilp(engine, milp, {
    ...options,
    onPlan: (found) => tell({ kind: "plan", point: found }),
    onBound: (proved) => tell({ kind: "bound", bound: proved }),
  });
  tell({ kind: "done", point, bound, closed });
});

// A failed start must be told as an error of this worker, not lost in a promise.
addEventListener("unhandledrejection", ({ reason }) => {
  setTimeout(() => {
    throw reason;
  });
});
