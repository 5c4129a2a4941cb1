/** A small seeded generator (the public-domain mulberry32 recipe): the same numbers on every machine. */
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

/** A number that wanders around 0 with about unit spread and forgets itself over `memoryH` hours. */
export function wander(random: () => number, memoryH: number): () => number {
  const keep = Math.exp(-1 / memoryH);
  const fresh = Math.sqrt(1 - keep * keep);
  // Three uniform numbers add to a hump close enough to the normal curve, and never run far off.
  const hump = () => 2 * (random() + random() + random() - 1.5);
  let value = hump();
  return () => {
    value = keep * value + fresh * hump();
    return value;
  };
}
