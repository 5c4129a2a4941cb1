import { type Coefficient, coefficient } from "../coefficient.ts";
import { CROP_CATALOGUE } from "../drying/crops.ts";
import type { CropKey } from "../drying/keys.ts";

/**
 * How far the model may be wrong, as distributions. No published spread of field drying rates between fields was at
 * hand, so most are assumed: the record of issued forecasts is what shows whether they are wide enough.
 */
export const UNCERTAINTY = {
  rateLnSd: coefficient(
    0.2,
    "ln",
    "assumed",
    "lognormal around 1: a fifth either way. Rotz & Chen 1985 (Trans. ASAE 28:1686) explained 0.64 of the variance of the rate; " +
      "the worked checks of this structure had a median error of 9.5 %",
    [0.1, 0.4],
  ),
  /**
   * Why no member dries by an opinion's own rate: in four invented spells (22 cuts of alfalfa, 204 draws) draws among course
   * and opinions, centred, moved the hours to 20 % by 0.2, 0.4 and 0.9 (10, 50 and 90 %); not centred they moved the middle by
   * 5.5 h towards regressions of one crop that know no rain; without the opinions' spread 90 % came 2.7 h sooner.
   */
  opinionSpreadShare: coefficient(
    1,
    "of the standard deviation of ln(rate) among the course and its second opinions",
    "assumed",
    "the second opinions' spread enters the rate's whole, as an independent error around the model's own rate",
    [0, 1],
  ),
  initialMoistureSdWb: coefficient(
    0.02,
    "(wet-basis fraction)",
    "assumed",
    "normal; alfalfa is cut at 75-80 %, so a usual value is within 2-3 points of the field",
    [0.01, 0.03],
  ),
  coarseInitialMoistureSdWb: coefficient(
    0.04,
    "(wet-basis fraction)",
    "assumed",
    "normal; drought-struck corn and tall sorghums stand anywhere from 70 to 85 %",
    [0.03, 0.06],
  ),
  yieldLnSd: coefficient(
    0.15,
    "ln",
    "assumed",
    "lognormal; a yield judged by eye or plant height, unevenness of the field included",
    [0.1, 0.3],
  ),
  soilOtherShare: coefficient(
    0.15,
    "-",
    "assumed",
    "chance of the next drier and of the next wetter class than the one named, each",
    [0.05, 0.25],
  ),
} as const satisfies Record<string, Coefficient>;

/** The distributions of one swath, plain numbers. */
export interface Uncertainty {
  /** Centre and spread of ln(rate factor); 0 and `rateLnSd` where nothing was learned. */
  readonly rateLnMean: number;
  readonly rateLnSd: number;
  readonly initialMoistureSdWb: number;
  readonly yieldLnSd: number;
  readonly soilOtherShare: number;
}

/**
 * The rate's spread with the second opinions': the standard deviation of ln(rate) among the course (1) and the opinions
 * is added to the model's own as an independent error.
 *
 * @param opinionRates each opinion's rate over the course's: `opinionRates`
 */
export function rateLnSdWithOpinions(
  opinionRates: readonly number[],
  ownLnSd: number = UNCERTAINTY.rateLnSd.value,
): number {
  const told = opinionRates.filter((rate) => Number.isFinite(rate) && rate > 0);
  if (told.length === 0) return ownLnSd;
  const logs = [0, ...told.map(Math.log)];
  const mean = logs.reduce((sum, ln) => sum + ln, 0) / logs.length;
  const variance = logs.reduce((sum, ln) => sum + (ln - mean) ** 2, 0) / logs.length;
  return Math.hypot(ownLnSd, UNCERTAINTY.opinionSpreadShare.value * Math.sqrt(variance));
}

/** What is assumed of a crop before any reading, widened by the second opinions where they are given. */
export function uncertaintyOf(crop: CropKey, opinionRates: readonly number[] = []): Uncertainty {
  const initial = CROP_CATALOGUE[crop].coarseStem
    ? UNCERTAINTY.coarseInitialMoistureSdWb
    : UNCERTAINTY.initialMoistureSdWb;
  return {
    rateLnMean: 0,
    rateLnSd: rateLnSdWithOpinions(opinionRates),
    initialMoistureSdWb: initial.value,
    yieldLnSd: UNCERTAINTY.yieldLnSd.value,
    soilOtherShare: UNCERTAINTY.soilOtherShare.value,
  };
}
