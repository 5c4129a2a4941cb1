import { once } from "node:events";
import { Worker } from "node:worker_threads";

/** So many threads that each hold their part of the members: as a server keeps them, started once and asked often. */
export function memberWorkers(parts: number) {
  const workers = Array.from(
    { length: parts },
    (_, part) => new Worker(new URL("./worker.mjs", import.meta.url), { workerData: { part, parts } }),
  );
  const ask = async (worker: Worker): Promise<number> => {
    const answer = once(worker, "message");
    worker.postMessage("run");
    const [sum] = await answer;
    return Number(sum);
  };
  return {
    run: async () => (await Promise.all(workers.map(ask))).reduce((sum, part) => sum + part, 0),
    stop: async () => {
      await Promise.all(workers.map((worker) => worker.terminate()));
    },
  };
}
