import { HOUR_MS } from "../weather/clock.ts";
import type { HourlyWeather } from "../weather/hourly.ts";

/** Moisture at which course and opinions are held against each other, wet basis; assumed. Below it they differ by their floors. */
const COMPARED_AT_WB = 0.5;
/** With less of a fall in common than this nothing is told, wet-basis fraction. */
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

function lowest(moistureWb: Float64Array, hours: number): number {
  let low = 1;
  for (let i = 0; i < hours; i++) low = Math.min(low, moistureWb[i] as number);
  return low;
}

/** Hours from the cut to a moisture that the path is known to reach. */
function hoursTo(path: Path, moistureWb: Float64Array, startWb: number, targetWb: number): number {
  let before = startWb;
  for (let i = 0; i < moistureWb.length; i++) {
    const now = moistureWb[i] as number;
    const fromMs = i === 0 ? path.cutUtcMs : path.startUtcMs + i * HOUR_MS;
    const spanH = (path.startUtcMs + (i + 1) * HOUR_MS - fromMs) / HOUR_MS;
    if (now <= targetWb) {
      const share = before > now ? (before - targetWb) / (before - now) : 0;
      return (fromMs - path.cutUtcMs) / HOUR_MS + Math.max(0, share) * spanH;
    }
    before = now;
  }
  return Number.NaN;
}

/**
 * Rate of each second opinion over the course's: the course's hours to 50 % over the opinion's, or to the lowest moisture
 * above it that all reach before the first rain. Empty where they have no fall in common.
 */
export function opinionRates(
  course: Path,
  opinions: readonly { readonly moistureWb: Float64Array }[],
  startWb: number,
  weather: HourlyWeather,
): readonly number[] {
  const hours = dryHours(course, weather);
  const paths = [course.moistureWb, ...opinions.map(({ moistureWb }) => moistureWb)];
  const targetWb = Math.max(COMPARED_AT_WB, ...paths.map((path) => lowest(path, hours)));
  if (startWb - targetWb < LEAST_FALL_WB) return [];
  const own = hoursTo(course, course.moistureWb, startWb, targetWb);
  return opinions.map(({ moistureWb }) => own / hoursTo(course, moistureWb, startWb, targetWb));
}
