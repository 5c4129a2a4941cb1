import type { EarlyStart } from "./app/early-start.ts";

/*
 * Runs before the page's own scripts are there: the worker is made ready, and the samples come, while the browser still
 * reads those. It imports nothing, so that it waits for nothing; where the page was quicker it leaves all to the page.
 */
if (!("earlyStart" in globalThis)) {
  const early: EarlyStart = {
    worker: new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" }),
    samples: fetch("api/samples"),
    failed: false,
  };
  early.worker.onerror = () => {
    early.failed = true;
  };
  // Whoever waits for them is told; until then a failure is not an unhandled one.
  early.samples.catch(() => {});
  Object.assign(globalThis, { earlyStart: early });
}
