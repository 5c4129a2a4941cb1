import { coefficient } from "../coefficient.ts";

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
  /** Seen or smelt in the last turn: brown edges, smoke. */
  readonly charred?: boolean | undefined;
}

export interface MoistureTest {
  /** Wet basis, per cent; null before anything was dried, and where the sample is lost. */
  readonly moisturePct: number | null;
  /** From the scale's own step alone, points. */
  readonly scalePoints: number;
  /** Only then is the moisture a reading: water that is still in the sample counts as dry matter. */
  readonly settled: boolean;
  /** This sample gives no reading any more. */
  readonly newSample: boolean;
  readonly next: string;
  readonly warnings: readonly string[];
}

/** Lost less than this in a turn, and the weight of a sample of 100 g has settled, g. */
export const SETTLED_G = 1;
export const MOISTURE_TEST = {
  settledPct: coefficient(
    1,
    "% of the fresh sample",
    "published",
    "Saskatchewan Agriculture and University of Illinois (see above): 1 g on a sample of 100 g; on a smaller one as large a share, ours",
    [0.5, 2],
  ),
  /** No crop lies drier than this in the open: a test that ends below it has not dried its sample. */
  leastPct: coefficient(
    5,
    "% wet basis",
    "assumed",
    "hay in dry air keeps 7 to 10 %, from memory; well under that, so that no true reading is refused",
    [3, 7],
  ),
} as const;
const FIRST_TURN = "3 minutes on high, a glass of water beside the dish";
const NEXT_TURN = "stir, 30 s more, weigh again";
const NEW_SAMPLE = "it charred before it settled: take a new sample, with less power and shorter turns";
/** A scale that shows whole grams. Assumed of every scale: a finer one is no worse. */
export const SCALE_STEP_G = 1;

/** Under this a turn took nothing, g: of a small sample 1 g would be many points of moisture. */
function settledUnderG(sampleG: number): number {
  return Math.min(SETTLED_G, (MOISTURE_TEST.settledPct.value / 100) * sampleG);
}

/** The turns in which the weight had settled, first to last; the first turn has nothing to settle against. */
function settledTurns(losses: readonly number[], sampleG: number): readonly number[] {
  const underG = settledUnderG(sampleG);
  return losses.flatMap((loss, i) => (i > 0 && Math.abs(loss) < underG ? [i] : []));
}

/**
 * The turn whose weight counts where the sample chars, -1 for none; null where it does not char. Water comes off slower and
 * slower: a loss that grows again once the weight had settled is the sample itself. One turn that took nothing may be one in
 * which the oven did not heat: before a sample that chars only two in a row tell that the water was out.
 */
function weightBeforeCharring(
  losses: readonly number[],
  turns: readonly number[],
  charred: boolean,
): number | null {
  const last = losses.length - 1;
  const seconds = turns.filter((turn) => turns.includes(turn - 1));
  const burning = losses.findIndex((loss, i) => loss > 2 * SETTLED_G && seconds.some((turn) => turn < i));
  if (burning >= 0) return seconds.filter((turn) => turn < burning).at(-1) ?? -1;
  if (!charred) return null;
  const second = seconds.at(-1);
  // Seen in a turn that took next to nothing: it counts as the second of the two, by the weight before it.
  return second === undefined ? -1 : second === last ? last - 1 : second;
}

/** @throws never: impossible weighings are told in `warnings` and give no moisture */
export function moistureTest({ tareG, freshG, driedG, charred = false }: Weighings): MoistureTest {
  const sampleG = freshG - tareG;
  const warnings: string[] = [];
  const scalePoints = sampleG > 0 ? (100 * SCALE_STEP_G) / sampleG : 0;
  const without = (next: string, newSample = false): MoistureTest => ({
    moisturePct: null,
    scalePoints,
    settled: false,
    newSample,
    next,
    warnings,
  });
  if (!(Number.isFinite(sampleG) && sampleG > 0)) {
    warnings.push(`The full dish weighs ${freshG} g and the empty one ${tareG} g: it must weigh more`);
    return without("weigh dish and sample again");
  }
  if (sampleG < 50)
    warnings.push(`A sample of ${sampleG} g is small: 100 g make a scale of 1 g worth 1 point`);
  const losses = driedG.map((now, i) => (driedG[i - 1] ?? freshG) - now);
  if (losses.some((loss) => loss < -SCALE_STEP_G))
    warnings.push("A weight rose between two turns: was the dish still hot, or another one?");
  const turns = settledTurns(losses, sampleG);
  if (losses.some((loss, i) => loss > 2 * SETTLED_G && turns.includes(i - 1) && !turns.includes(i - 2)))
    warnings.push(
      "It lost weight again after one turn that took nothing: did the oven heat in that turn? Go on, unless something is brown",
    );
  const wrong = driedG.find((now) => !(now > tareG && now <= freshG + SCALE_STEP_G));
  if (wrong !== undefined) {
    warnings.push(
      `A weighing of ${wrong} g lies outside the empty dish's ${tareG} g and the full one's ${freshG} g`,
    );
    return without("weigh again");
  }
  if (driedG.length === 0) return without(FIRST_TURN);
  const before = weightBeforeCharring(losses, turns, charred);
  if (before === -1) return without(NEW_SAMPLE, true);
  const dryG = driedG[before ?? driedG.length - 1] as number;
  const moisturePct = (100 * (freshG - dryG)) / sampleG;
  const settled = before !== null || turns.includes(losses.length - 1);
  if (settled && moisturePct < MOISTURE_TEST.leastPct.value) {
    warnings.push(
      `Only ${Math.round(10 * (freshG - dryG)) / 10} g of ${sampleG} g came off: did the oven heat? No crop in the field is below ${MOISTURE_TEST.leastPct.value} %`,
    );
    return without(NEXT_TURN);
  }
  if (before !== null) {
    warnings.push(
      charred
        ? "It chars: the weight before counts. Use less power and shorter turns next time"
        : "It lost weight again after it had settled: it chars, and the weight before counts",
    );
  }
  const done = before === null ? "done: the weight has settled" : "done: the weight before it charred counts";
  return { moisturePct, scalePoints, settled, newSample: false, next: settled ? done : NEXT_TURN, warnings };
}
