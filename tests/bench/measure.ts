/** Times of one workload over its rounds, ms. */
export interface Timing {
  readonly minMs: number;
  readonly medianMs: number;
}

/** Results of timed work end here, so that no engine may drop the work as unused. */
export const sink = { sum: 0 };

export function timingOf(timesMs: readonly number[]): Timing {
  const sorted = [...timesMs].sort((a, b) => a - b);
  return { minMs: sorted[0] ?? 0, medianMs: sorted[Math.floor(sorted.length / 2)] ?? 0 };
}

/**
 * Runs the workloads in turn, round after round, so that a change of the machine's clock meets all alike.
 * One round before them warms up and is not counted.
 */
export async function interleaved(
  rounds: number,
  works: readonly (() => number | Promise<number>)[],
): Promise<Timing[]> {
  const times = works.map((): number[] => []);
  for (let round = -1; round < rounds; round += 1) {
    for (const [i, work] of works.entries()) {
      const startMs = performance.now();
      sink.sum += await work();
      if (round >= 0) times[i]?.push(performance.now() - startMs);
    }
  }
  return times.map(timingOf);
}

export function ms({ minMs, medianMs }: Timing): string {
  return `min ${minMs.toFixed(1)} ms, median ${medianMs.toFixed(1)} ms`;
}
