import { parentPort, workerData } from "node:worker_threads";
import loadHighs from "highs";
import { tellSolve } from "../../model/crew/solve-grid.ts";

/** The thread of one solve. The engine is synchronous: what is found and proved meanwhile is posted at once. */

const beganMs = performance.now();
tellSolve(
  await loadHighs(),
  workerData,
  (told) => parentPort?.postMessage(told),
  () => (performance.now() - beganMs) / 1000,
);
