import { within } from "../limits.ts";
import { WIND_HEIGHT_LIMIT } from "./limits.ts";

/** Allen et al. (1998) FAO-56 eq. 47: logarithmic profile over grass of 0.12 m, neutral air. Heights in m. */
export const FAO56_EQ47 = { numerator: 4.87, perM: 67.8, less: 5.42 } as const;

/**
 * Wind at 2 m over short grass as a share of the wind at another height.
 *
 * Source: FAO-56 eq. 47. Neutral stability: on clear nights the true share is smaller, in convective sun larger.
 * @param heightM 0.5...100 m
 * @example windTo2mFactor(10) // 0.748
 */
export function windTo2mFactor(heightM: number): number {
  if (!within(heightM, WIND_HEIGHT_LIMIT)) {
    throw new RangeError(
      `windTo2mFactor: heightM must be in [${WIND_HEIGHT_LIMIT.min}, ${WIND_HEIGHT_LIMIT.max}], got ${heightM}`,
    );
  }
  const { numerator, perM, less } = FAO56_EQ47;
  return numerator / Math.log(perM * heightM - less);
}

/** Wind at 2 m, m/s, from the wind at another height. At 2 m the value is kept exactly. */
export function wind2mMps(windSpeedMps: number, heightM: number): number {
  return heightM === 2 ? windSpeedMps : windSpeedMps * windTo2mFactor(heightM);
}
