import type { Solver, SolverAnswer, SolverTell } from "../../model/crew/index.ts";

/** The engine overruns its limit at times: its worker is ended this long after it, ms. */
const GRACE_MS = 300;
/** For the engine to come over the network and be made ready, ms. */
const LOAD_MS = 15_000;

export interface PageSolver {
  readonly solver: Solver;
  /** Ends what is being solved with the best that is known. */
  readonly cancel: () => void;
}

/**
 * A solver of the browser: a worker a question, ended from outside at its limit or when the reader has seen enough.
 *
 * @param onBound told each time that a lower bound is proved
 */
export function pageSolver(onBound: (bound: number) => void): PageSolver {
  let giveUp = () => {};
  let cancelled = false;
  const solver: Solver = (question) =>
    new Promise<SolverAnswer>((settle) => {
      const best: { point: Float64Array | null; bound: number } = {
        point: question.start,
        bound: Number.POSITIVE_INFINITY,
      };
      if (cancelled) {
        settle({ ...best, closed: false, byClock: true });
        return;
      }
      const worker = new Worker(new URL("./solver-worker.ts", import.meta.url), { type: "module" });
      const end = (answer: SolverAnswer) => {
        clearTimeout(timer);
        worker.terminate();
        settle(answer);
      };
      giveUp = () => end({ ...best, closed: false, byClock: true });
      let timer = setTimeout(() => giveUp(), question.timeLimitS * 1000 + LOAD_MS);
      const heard = () => {
        clearTimeout(timer);
        timer = setTimeout(() => giveUp(), question.timeLimitS * 1000 + GRACE_MS);
      };
      let first = true;
      worker.onmessage = ({ data }: MessageEvent<SolverTell>) => {
        if (first) heard();
        first = false;
        if (data.kind === "plan") best.point = data.point;
        else if (data.kind === "bound") {
          best.bound = Math.min(best.bound, data.bound);
          onBound(best.bound);
        } else end(data);
      };
      worker.onerror = () => giveUp();
      worker.postMessage(question);
    });
  return {
    solver,
    cancel: () => {
      cancelled = true;
      giveUp();
    },
  };
}
