import { afterEach, expect, test, vi } from "vitest";
import { takeEarlyStart } from "../../../web/app/early-start.ts";

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
  Reflect.deleteProperty(globalThis, "earlyStart");
});

/** Runs the early script with a worker that only counts. */
async function runStart() {
  const made: CountedWorker[] = [];
  class CountedWorker extends EventTarget {
    onerror: (() => void) | null = null;
    constructor() {
      super();
      made.push(this);
    }
  }
  vi.stubGlobal("Worker", CountedWorker);
  const fetched = vi.fn(() => Promise.reject(new Error("no network")));
  vi.stubGlobal("fetch", fetched);
  await import("../../../web/start.ts");
  return { made, fetched };
}

test("the worker and the samples of the early script are taken once", async () => {
  const { made, fetched } = await runStart();
  expect(fetched).toHaveBeenCalledExactlyOnceWith("api/samples");
  const early = takeEarlyStart();
  expect(early?.worker).toBe(made[0]);
  await expect(early?.samples).rejects.toThrow("no network");
  // The worker's first word is that it hears.
  made[0]?.dispatchEvent(new Event("message"));
  await early?.ready;
  expect(takeEarlyStart()).toBeNull();
});

test("a worker that falls over before the page is there is told as failed", async () => {
  const { made } = await runStart();
  made[0]?.onerror?.();
  expect(takeEarlyStart()?.failed).toBe(true);
});

test("where the page was quicker, the early script leaves all to it", async () => {
  expect(takeEarlyStart()).toBeNull();
  const { made, fetched } = await runStart();
  expect(made).toHaveLength(0);
  expect(fetched).not.toHaveBeenCalled();
});
