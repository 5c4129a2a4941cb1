/**
 * Drying a sample in a microwave oven, step by step: moisture from the weighings, when to stop, and what charring looks
 * like. Saskatchewan Agriculture, Determining moisture content; University of Illinois, Microwave oven, gram scale method.
 */

export interface Weighings {
  /** Empty dish, g. */
  readonly tareG: number;
  /** Dish with the fresh sample, g. */
  readonly freshG: number;
  /** Dish with the sample after each turn in the oven, g, in order. */
  readonly driedG: readonly number[];
  /** Seen or smelt: brown edges, smoke. */
  readonly charred?: boolean | undefined;
}

export interface MoistureTest {
  /** Wet basis, per cent; null before anything was dried. */
  readonly moisturePct: number | null;
  /** From the scale's own step alone, points. */
  readonly scalePoints: number;
  readonly settled: boolean;
  readonly next: string;
  readonly warnings: readonly string[];
}

/** Lost less than this in a turn, and the weight has settled, g. */
export const SETTLED_G = 1;
const FIRST_TURN = "3 minutes on high, a glass of water beside the dish";
const NEXT_TURN = "stir, 30 s more, weigh again";
/** A scale that shows whole grams. */
export const SCALE_STEP_G = 1;

/** @throws never: impossible weighings are told in `warnings` and give no moisture */
export function moistureTest({ tareG, freshG, driedG, charred = false }: Weighings): MoistureTest {
  const sampleG = freshG - tareG;
  const warnings: string[] = [];
  const scalePoints = sampleG > 0 ? (100 * SCALE_STEP_G) / sampleG : Number.POSITIVE_INFINITY;
  if (!(Number.isFinite(sampleG) && sampleG > 0)) {
    warnings.push(`The full dish weighs ${freshG} g and the empty one ${tareG} g: it must weigh more`);
    return {
      moisturePct: null,
      scalePoints: 0,
      settled: false,
      next: "weigh dish and sample again",
      warnings,
    };
  }
  if (sampleG < 50)
    warnings.push(`A sample of ${sampleG} g is small: 100 g make a scale of 1 g worth 1 point`);
  const losses = driedG.map((now, i) => (driedG[i - 1] ?? freshG) - now);
  const rises = losses.some((loss) => loss < -SCALE_STEP_G);
  if (rises) warnings.push("A weight rose between two turns: was the dish still hot, or another one?");
  const wrong = driedG.find((now) => !(now > tareG && now <= freshG + SCALE_STEP_G));
  if (wrong !== undefined) {
    warnings.push(
      `A weighing of ${wrong} g lies outside the empty dish's ${tareG} g and the full one's ${freshG} g`,
    );
    return { moisturePct: null, scalePoints, settled: false, next: "weigh again", warnings };
  }
  if (driedG.length === 0)
    return { moisturePct: null, scalePoints, settled: false, next: FIRST_TURN, warnings };
  const lastLoss = losses.at(-1) ?? 0;
  const before = losses.at(-2);
  // Water comes off slower and slower; a loss that grows again is the sample itself.
  const burns =
    charred || (driedG.length > 2 && before !== undefined && before < SETTLED_G && lastLoss > 2 * SETTLED_G);
  if (burns) warnings.push("It chars: the weight before counts. Use less power and shorter turns next time");
  if (burns && driedG.length < 2)
    return {
      moisturePct: null,
      scalePoints,
      settled: false,
      next: "start again with a new sample and less power",
      warnings,
    };
  const dry = burns ? (driedG.at(-2) ?? freshG) : (driedG.at(-1) ?? freshG);
  const settled = burns || (driedG.length > 1 && Math.abs(lastLoss) < SETTLED_G);
  const moisturePct = (100 * (freshG - dry)) / sampleG;
  return {
    moisturePct,
    scalePoints,
    settled,
    next: settled ? "done: the weight has settled" : NEXT_TURN,
    warnings,
  };
}
