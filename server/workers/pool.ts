import { Worker } from "node:worker_threads";
import { HTTPException } from "hono/http-exception";
import type { Issue, Outcome } from "../../model/limits.ts";
import { plainProblem } from "../problem.ts";
import { JsonText } from "../verb.ts";

/** What a worker sends back for each question. */
export type WorkerReply =
  | { readonly kind: "answered"; readonly json: Uint8Array<ArrayBuffer> }
  | { readonly kind: "refused"; readonly issues: readonly Issue[] }
  | { readonly kind: "failed"; readonly reason: string };

export interface PoolSettings {
  /** The thread's first file. */
  readonly entry: URL;
  readonly threads: number;
  /** Questions that may wait; one more is turned away. */
  readonly mostWaiting: number;
}

export interface Pool {
  /** `signal` says that nobody waits for the answer any more: its place in the queue or its thread is given up. */
  readonly ask: (question: object, signal?: AbortSignal) => Promise<Outcome<JsonText>>;
}

interface Job {
  readonly question: object;
  readonly settle: (answer: Outcome<JsonText>) => void;
  readonly fail: (error: Error) => void;
}

interface Thread {
  readonly worker: Worker;
  job: Job | null;
}

function busy(waiting: number): HTTPException {
  const message = `${waiting} large questions are waiting already, at most ${waiting} may; ask again in a minute`;
  const body = JSON.stringify(plainProblem("busy", message));
  const headers = { "Content-Type": "application/json", "Retry-After": "60" };
  return new HTTPException(503, { res: new Response(body, { status: 503, headers }) });
}

/** Nobody reads this: whoever asked has gone. */
function gone(): HTTPException {
  const body = JSON.stringify(plainProblem("gone", "whoever asked has gone"));
  return new HTTPException(408, { res: new Response(body, { status: 408 }) });
}

/**
 * Threads that each work on one question at a time. They are started when first needed, so that a server that is asked
 * small questions never pays for them, and stay. A thread that dies fails the question it had and no other: the next
 * question starts a new one. A thread hears nothing while it computes, so one that works for nobody is ended.
 */
export function workerPool({ entry, threads, mostWaiting }: PoolSettings): Pool {
  const running = new Set<Thread>();
  const waiting: Job[] = [];

  const lose = (thread: Thread, error: Error) => {
    // A death is told twice, as an error and as an exit.
    if (!running.delete(thread)) return;
    thread.job?.fail(error);
    next();
  };

  const start = (): Thread => {
    const thread: Thread = { worker: new Worker(entry), job: null };
    running.add(thread);
    thread.worker.on("message", (reply: WorkerReply) => {
      const { job } = thread;
      thread.job = null;
      if (reply.kind === "answered") job?.settle({ ok: true, value: new JsonText(reply.json) });
      else if (reply.kind === "refused") job?.settle({ ok: false, issues: reply.issues });
      else job?.fail(new Error(`a worker could not answer: ${reply.reason}`));
      next();
    });
    thread.worker.on("error", (error: Error) => lose(thread, error));
    thread.worker.on("exit", (code) => lose(thread, new Error(`a worker ended with code ${code}`)));
    // An idle thread must not keep the process from ending.
    thread.worker.unref();
    return thread;
  };

  function next(): void {
    while (waiting.length > 0) {
      const idle = [...running].find(({ job }) => job === null);
      const thread = idle ?? (running.size < threads ? start() : null);
      const job = thread === null ? undefined : waiting.shift();
      if (thread === null || job === undefined) return;
      thread.job = job;
      thread.worker.postMessage(job.question);
    }
  }

  return {
    ask: (question, signal) =>
      new Promise((settle, fail) => {
        if (signal?.aborted) {
          fail(gone());
          return;
        }
        if (waiting.length >= mostWaiting) {
          fail(busy(mostWaiting));
          return;
        }
        const giveUp = () => {
          const at = waiting.indexOf(job);
          const thread = [...running].find((one) => one.job === job);
          if (at >= 0) waiting.splice(at, 1);
          if (at >= 0) fail(gone());
          if (thread === undefined) return;
          lose(thread, gone());
          void thread.worker.terminate();
        };
        const done = () => signal?.removeEventListener("abort", giveUp);
        const job: Job = {
          question,
          settle: (answer) => {
            done();
            settle(answer);
          },
          fail: (error) => {
            done();
            fail(error);
          },
        };
        signal?.addEventListener("abort", giveUp);
        waiting.push(job);
        next();
      }),
  };
}
