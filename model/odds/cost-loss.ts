/**
 * When to act on a chance: Richardson 2000, Skill and relative economic value of the ECMWF ensemble prediction system,
 * QJRMS 126:649. Only a chance that proved reliable makes the rule the best one.
 */
export interface CostLoss {
  /** Cost of acting, whatever comes. */
  readonly cost: number;
  /** Loss when the bad thing comes and nothing was done, in the same money. */
  readonly loss: number;
  /** What is still lost when it comes although one acted. */
  readonly residualLoss?: number | undefined;
}

/**
 * The chance of the bad thing above which acting pays: C / (L - Lr). Above 1 acting never pays.
 *
 * @throws RangeError unless cost >= 0 and loss > residual loss >= 0
 */
export function actAbove({ cost, loss, residualLoss = 0 }: CostLoss): number {
  if (!(cost >= 0 && Number.isFinite(cost))) {
    throw new RangeError(`actAbove: cost must be at least 0, got ${cost}`);
  }
  if (!(residualLoss >= 0 && loss > residualLoss && Number.isFinite(loss))) {
    throw new RangeError(
      `actAbove: loss must be above the residual loss, both at least 0, got ${loss} and ${residualLoss}`,
    );
  }
  return cost / (loss - residualLoss);
}

/** Whether to cut: the chance of a good window above which cutting beats waiting, beside the chance there is. */
export interface CutRule {
  readonly cutAbove: number;
  readonly chance: number;
  readonly cut: boolean;
  readonly text: string;
}

/** From this near to an end on a decimal is told, away from the end and not rounded: only what is sure is 0 or 100 %. */
const NEARLY = 0.005;
/** Chances no further apart are the same but for rounding, 0-1. */
const ALIKE = 1e-9;

function pct(share: number): string {
  const told =
    share >= 1 - NEARLY && share < 1
      ? Math.floor(1000 * share + 1e-9) / 10
      : share > 0 && share < NEARLY
        ? Math.ceil(1000 * share - 1e-9) / 10
        : Math.round(100 * share);
  return `${told} %`;
}

/** The rule's chance, and what there is against it: by a decimal where whole per cents read the same, else in words. */
function pctBeside(cutAbove: number, chance: number): readonly [above: string, now: string] {
  const [above, now] = [pct(cutAbove), pct(chance)];
  if (above !== now) return [above, now];
  const finer = (share: number) =>
    share > NEARLY && share < 1 - NEARLY ? `${(100 * share).toFixed(1)} %` : pct(share);
  if (finer(cutAbove) !== finer(chance)) return [finer(cutAbove), finer(chance)];
  if (Math.abs(chance - cutAbove) <= ALIKE) return [above, "just that"];
  return [above, `a shade ${chance > cutAbove ? "more" : "less"}`];
}

/**
 * Cut now or wait. Waiting costs `waitingCost` whatever comes; cutting loses `rainedOnLoss` when no window follows.
 * Waiting is the protective act, so it pays when the chance of no window is above waitingCost / rainedOnLoss. A rule above
 * 0 or above 100 % is told in words: cut at any chance, or wait whatever it is.
 *
 * @param chance that the feed comes in as it should after the cut, 0-1
 */
export function cutRule(chance: number, waitingCost: number, rainedOnLoss: number): CutRule {
  if (!(chance >= 0 && chance <= 1)) {
    throw new RangeError(`cutRule: chance must be in [0, 1], got ${chance}`);
  }
  const cutAbove = Math.max(0, 1 - actAbove({ cost: waitingCost, loss: rainedOnLoss }));
  if (cutAbove === 0) {
    const text = `waiting costs as much as rain would, or more: cut at any chance (it is ${pct(chance)})`;
    return { cutAbove, chance, cut: true, text };
  }
  if (cutAbove === 1) {
    const text = `waiting costs nothing: wait whatever the chance (it is ${pct(chance)})`;
    return { cutAbove, chance, cut: false, text };
  }
  const [above, now] = pctBeside(cutAbove, chance);
  const text = `cut when the chance is above ${above}: it is ${now}`;
  return { cutAbove, chance, cut: chance - cutAbove > ALIKE, text };
}

/** What is told where a rule was asked for without what waiting costs. */
export const NO_WAIT_COST_TEXT =
  "No chance at which to cut is told: what a day of waiting costs is not said (cutRule.waitingPerHa).";

/** The same while what was said of the costs cannot be used. */
export const WRONG_COSTS_TEXT =
  "No chance at which to cut can be told until what waiting and rain cost is right.";

/** The same where the cost is there and the prices see no loss. */
export const NO_RULE_TEXT =
  "No chance at which to cut is told: by these prices a cut that is rained on loses nothing. Say what it costs.";

/** The same where the only cut to rule on was measured. */
export const MEASURED_TEXT =
  "No chance at which to cut is told: something was measured on the best cut, so that it lies.";

/** The same where a part is taken a day: no one cut is waited for or rained on. */
export const PART_A_DAY_TEXT =
  "No chance at which to cut is told: green chop and grazing take a part each day, and nothing of it lies in the rain.";

export interface ForecastCounts {
  readonly hits: number;
  readonly misses: number;
  readonly falseAlarms: number;
  readonly correctNegatives: number;
}

/**
 * Value of acting on the forecast: 1 = as if all were known, 0 = no better than always or never acting.
 * Null where even perfect knowledge would save nothing.
 */
export function economicValue(
  { hits, misses, falseAlarms, correctNegatives }: ForecastCounts,
  costLossRatio: number,
): number | null {
  const count = hits + misses + falseAlarms + correctNegatives;
  const a = costLossRatio;
  const baseRate = (hits + misses) / count;
  const spent = (a * (hits + falseAlarms)) / count + misses / count;
  const without = Math.min(a, baseRate);
  const best = baseRate * a;
  return without > best ? (without - spent) / (without - best) : null;
}
