/**
 * Chance that can be repeated: the public-domain mulberry32 recipe. The same seed gives the same numbers in the
 * server, a worker and the page, because only 32-bit integer arithmetic is used.
 *
 * @returns a source of numbers in [0, 1)
 */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A seed for one named stream of a seed, so that a stream added later does not shift the others. */
export function streamSeed(seed: number, stream: number): number {
  let mixed = (Math.imul(seed >>> 0, 0x9e3779b1) ^ Math.imul((stream + 1) >>> 0, 0x85ebca6b)) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x7feb352d) >>> 0;
  return (mixed ^ (mixed >>> 15)) >>> 0;
}

/** The numbers 0 to count - 1 in a random order (Fisher and Yates). */
export function shuffledOrder(count: number, random: () => number): number[] {
  const order = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    const kept = order[i] as number;
    order[i] = order[j] as number;
    order[j] = kept;
  }
  return order;
}
