import { dryBasis } from "../drying/moisture.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";

/** Course and opinions are held against each other where the course comes to this, wet basis; assumed. Below it they differ by their floors. */
const COMPARED_AT_WB = 0.5;
/** With less of a fall than this nothing is told, wet-basis fraction. */
const LEAST_FALL_WB = 0.06;

interface Path {
  readonly startUtcMs: number;
  readonly cutUtcMs: number;
  readonly moistureWb: Float64Array;
}

/** Hours of the path from its cut until the first rain falls on it: the opinions know no rain. */
function dryHours({ startUtcMs, moistureWb }: Path, weather: HourlyWeather): number {
  const first = Math.round((startUtcMs - weather.startUtcMs) / HOUR_MS);
  for (let i = 0; i < moistureWb.length; i++) if ((weather.rainMm[first + i] as number) > 0) return i;
  return moistureWb.length;
}

/**
 * Rate of each second opinion over the course's: the logarithms of how far both have dried, dry basis, at the same hour: that
 * at which the course comes to 50 %, or the last before the first rain. At the same hour and not at the same moisture: an
 * opinion that is a tenth slower may come to 50 % a night later, and hours would call that half as fast. Empty where
 * the course has hardly dried by then.
 */
export function opinionRates(
  course: Path,
  opinions: readonly { readonly moistureWb: Float64Array }[],
  startWb: number,
  weather: HourlyWeather,
): readonly number[] {
  const hours = dryHours(course, weather);
  const reached = course.moistureWb.findIndex((wb) => wb <= COMPARED_AT_WB);
  const at = reached >= 0 && reached < hours ? reached : hours - 1;
  const courseWb = course.moistureWb[at];
  if (courseWb === undefined || startWb - courseWb < LEAST_FALL_WB) return [];
  const fallTo = (wb: number) => Math.log(dryBasis(startWb) / dryBasis(wb));
  return opinions.map(({ moistureWb }) => fallTo(moistureWb[at] as number) / fallTo(courseWb));
}
