import type { EarlyStart } from "./app/early-start.ts";

/*
 * Runs before the page's own scripts are there: the worker is made ready, and the samples come, while the browser still
 * reads those. It imports nothing, so that it waits for nothing; where the page was quicker it leaves all to the page.
 */
if (!("earlyStart" in globalThis)) {
  const worker = new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" });
  const early: EarlyStart = {
    worker,
    // Its first word.
    ready: new Promise((resolve) => worker.addEventListener("message", () => resolve(), { once: true })),
    // Read to its end here: nothing else is on its way yet.
    samples: fetch("api/samples").then(async (response) => ({
      status: response.status,
      body: response.ok ? await response.json() : null,
    })),
    failed: false,
  };
  worker.onerror = () => {
    early.failed = true;
  };
  // Whoever waits for them is told; until then a failure is not an unhandled one.
  early.samples.catch(() => {});
  Object.assign(globalThis, { earlyStart: early });
}
