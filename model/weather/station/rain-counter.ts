/** Rain that a station writes as a counter's reading: which column is one, and what fell in each row. */

/** Readings after rain, row to row, below which nothing can be told of a column. Assumed: a day of hours. */
const LEAST_PAIRS = 24;
/** Share of such readings that do not fall: an hour's rain falls back as soon as it stops, a counter stands. Assumed. */
const STANDS = 0.8;
/** A counter never set back in the file stands above zero in most rows and falls hardly ever. Assumed. */
const STANDS_THROUGHOUT = 0.9;

/** Of the readings after one above zero: how many there are, how many stand or rise, and how many rise. */
function afterRain(readings: readonly number[]): { count: number; stands: number; rises: number } {
  const pairs = { count: 0, stands: 0, rises: 0 };
  readings.forEach((now, i) => {
    const before = readings[i - 1] ?? 0;
    if (before <= 0) return;
    pairs.count += 1;
    if (now >= before) pairs.stands += 1;
    if (now > before) pairs.rises += 1;
  });
  return pairs;
}

/**
 * What the readings of a column of rain, in the file's order, look like: "amounts" of each row, a "counter" that only
 * rises (or, newest first, only falls), or "either".
 */
export function rainKindOf(readings: readonly number[]): "amounts" | "counter" | "either" {
  const kindOf = (ordered: readonly number[]) => {
    const { count, stands, rises } = afterRain(ordered);
    if (count < LEAST_PAIRS) return "amounts";
    const above = ordered.filter((value) => value > 0).length;
    if (stands >= STANDS_THROUGHOUT * count && above > ordered.length / 2) return "counter";
    // An hour's amount repeated over its minutes stands too, but it does not rise from one rain to the next.
    return stands >= STANDS * count && rises >= count - stands ? "either" : "amounts";
  };
  const forwards = kindOf(readings);
  return forwards === "amounts" ? kindOf(readings.toReversed()) : forwards;
}

/** A fall no greater than this is the sensor's noise: a tip of the gauge, mm, or this share of the reading. Assumed. */
const NOISE_MM = 0.3;
const NOISE_SHARE = 0.01;

export interface CounterRain {
  readonly amounts: (number | null)[];
  /** Small falls that were taken as the sensor's noise. */
  readonly noise: number;
  /** Rows whose change is neither rain nor a reset: their rain is missing. */
  readonly odd: readonly { readonly index: number; readonly fromMm: number; readonly toMm: number }[];
}

/**
 * A counter's readings, mm, as the rain of each row. It falls only when it is set back; a small dip is noise, and what
 * it rises back is no rain.
 *
 * @param mostMm the most rain that a row may hold
 */
export function amountsOfCounter(readings: readonly (number | null)[], mostMm: number): CounterRain {
  /** The highest reading since the counter was last set back. */
  let top: number | null = null;
  let noise = 0;
  const odd: { index: number; fromMm: number; toMm: number }[] = [];
  const amounts = readings.map((now, index): number | null => {
    if (now === null) {
      // What fell while it was not read cannot be given to an hour.
      top = null;
      return null;
    }
    const before = top;
    top = now;
    if (before === null) return null;
    const fall = before - now;
    const isNoise = fall > 1e-9 && fall <= Math.max(NOISE_MM, NOISE_SHARE * before) && now >= before / 2;
    if (isNoise) {
      noise += 1;
      top = before;
      return 0;
    }
    // Set back, it holds what fell since.
    const amount = fall > 1e-9 ? now : Math.max(0, -fall);
    if (amount <= mostMm && !(fall > 1e-9 && now >= before / 2)) return amount;
    odd.push({ index, fromMm: before, toMm: now });
    return null;
  });
  return { amounts, noise, odd };
}
