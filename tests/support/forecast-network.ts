import type { Network } from "../../server/forecasts/network.ts";

/** The clock of these tests runs this many times faster than the world's: 40 s of patience are 200 ms. */
const SPEED = 200;

export interface FastNetwork extends Network {
  readonly lines: string[];
  /** Moves the clock on, ms. */
  readonly skip: (ms: number) => void;
}

/** The real fetch (which the mock server catches at the network's edge) under a fast clock that starts at a given moment. */
export function fastNetwork(nowUtc: string): FastNetwork {
  const startMs = Date.parse(nowUtc);
  const begun = performance.now();
  const lines: string[] = [];
  let skippedMs = 0;
  return {
    fetch: (input, init) => fetch(input, init),
    nowMs: () => Math.round(startMs + skippedMs + (performance.now() - begun) * SPEED),
    startTimer: (ms, fire) => {
      const timer = setTimeout(fire, ms / SPEED);
      return () => clearTimeout(timer);
    },
    random: () => 0.5,
    userAgent: "swathclock-tests/1.0 nobody@example.org",
    log: (line) => lines.push(line),
    lines,
    skip: (ms) => {
      skippedMs += ms;
    },
  };
}
