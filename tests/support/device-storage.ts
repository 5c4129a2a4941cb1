import { afterEach, beforeEach, vi } from "vitest";

/** Gives each test of a file a device that keeps nothing yet, and takes it away again: called once, at its top. */
export function deviceStorage(): void {
  beforeEach(() => {
    const kept = new Map<string, string>();
    vi.stubGlobal("localStorage", {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => kept.set(key, value),
    });
  });
  afterEach(() => vi.unstubAllGlobals());
}
