import type { Network } from "../../server/forecasts/network.ts";

export interface SteppedNetwork extends Network {
  readonly lines: string[];
  /** Moves the clock on, ms. */
  readonly skip: (ms: number) => void;
  /** Answers with a request that never comes back: only the clock ends it. */
  readonly never: () => Promise<Response>;
}

interface Timer {
  readonly atMs: number;
  readonly fire: () => void;
}

/** Turns of the event loop without any news after which everything is believed to wait for the clock. */
const QUIET_TURNS = 4;

/**
 * The real fetch (which the mock server catches at the network's edge) under a clock that stands still while anything is
 * under way, and goes on to the next timer when everything waits: 40 s of patience cost nothing and are counted exactly.
 */
export function steppedNetwork(nowUtc: string): SteppedNetwork {
  let nowMs = Date.parse(nowUtc);
  const timers = new Set<Timer>();
  const lines: string[] = [];
  let inFlight = 0;
  let hanging = 0;
  let quiet = 0;
  let pumping = false;

  function pump(): void {
    if (timers.size === 0) {
      pumping = false;
      return;
    }
    quiet = inFlight === hanging ? quiet + 1 : 0;
    if (quiet > QUIET_TURNS) {
      quiet = 0;
      const next = [...timers].reduce((a, b) => (b.atMs < a.atMs ? b : a));
      timers.delete(next);
      nowMs = Math.max(nowMs, next.atMs);
      next.fire();
    }
    setImmediate(pump);
  }

  return {
    fetch: async (input, init) => {
      inFlight += 1;
      const before = hanging;
      try {
        return await fetch(input, init);
      } finally {
        inFlight -= 1;
        // What never came back was ended by the clock.
        if (init?.signal?.aborted && hanging > 0 && before <= hanging) hanging -= 1;
      }
    },
    nowMs: () => nowMs,
    startTimer: (ms, fire) => {
      const timer = { atMs: nowMs + Math.max(0, ms), fire };
      timers.add(timer);
      if (!pumping) {
        pumping = true;
        setImmediate(pump);
      }
      return () => timers.delete(timer);
    },
    random: () => 0.5,
    userAgent: "swathclock-tests/1.0 nobody@example.org",
    log: (line) => lines.push(line),
    lines,
    skip: (ms) => {
      nowMs += ms;
    },
    never: () => {
      hanging += 1;
      return new Promise<Response>(() => {});
    },
  };
}
