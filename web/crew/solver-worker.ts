import loadHighs from "highs";
import wasmUrl from "highs/runtime?url";
import { type SolverQuestion, tellSolve } from "../../model/crew/index.ts";

/** One solve, in a worker of its own because the engine hears nothing while it works: what it finds is posted at once. */

addEventListener("message", async ({ data }: MessageEvent<SolverQuestion>) => {
  const beganMs = performance.now();
  tellSolve(
    await loadHighs({ locateFile: () => wasmUrl }),
    data,
    (told) => postMessage(told),
    () => (performance.now() - beganMs) / 1000,
  );
});

// A failed start must be told as an error of this worker, not lost in a promise.
addEventListener("unhandledrejection", ({ reason }) => {
  setTimeout(() => {
    throw reason;
  });
});
