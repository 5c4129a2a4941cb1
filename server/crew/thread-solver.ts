import { Worker } from "node:worker_threads";
import type { Solver, SolverAnswer, SolverTell } from "../../model/crew/solve-grid.ts";
import { threadFile } from "../place.ts";

/** The engine was seen to overrun its limit by up to 10 s at the root: its thread is ended this long after it, ms. */
const GRACE_MS = 300;

/**
 * A solver in a thread of its own, one a question: a fresh instance each time, because running out of memory ends an
 * instance for good. Ended from outside at its limit or when `signal` says so, with the best that it had posted.
 */
export function threadSolver(signal?: AbortSignal): Solver {
  return (question) =>
    new Promise<SolverAnswer>((settle) => {
      const best: { point: Float64Array | null; bound: number } = {
        point: question.start,
        bound: Number.POSITIVE_INFINITY,
      };
      const worker = new Worker(threadFile("solver"), { workerData: question });
      let over = false;
      const end = (answer: SolverAnswer) => {
        if (over) return;
        over = true;
        clearTimeout(timer);
        signal?.removeEventListener("abort", giveUp);
        // A synchronous solve hears no message: only ending the thread stops it.
        void worker.terminate();
        settle(answer);
      };
      const giveUp = () => end({ ...best, closed: false, byClock: true });
      const timer = setTimeout(giveUp, question.timeLimitS * 1000 + GRACE_MS);
      if (signal?.aborted) giveUp();
      signal?.addEventListener("abort", giveUp);
      worker.on("message", (message: SolverTell) => {
        if (message.kind === "plan") best.point = message.point;
        else if (message.kind === "bound") best.bound = Math.min(best.bound, message.bound);
        else end(message);
      });
      worker.on("error", giveUp);
      worker.on("exit", giveUp);
    });
}
