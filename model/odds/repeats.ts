import { coefficient } from "../coefficient.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { logLikelihood, type Measured } from "./reading.ts";
import { PLACES, READING_METHODS } from "./reading-methods.ts";

/** Readings taken again: by one method within a short time they share most of their error, and count as their mean. */

export const REPEATED = {
  hours: coefficient(
    2,
    "h",
    "assumed",
    "readings by one method within so long of the first are one measurement taken again: the same sample of the field by the same instrument",
    [0.5, 6],
  ),
  sharedShare: coefficient(
    0.5,
    "(share of the method's error variance)",
    "assumed",
    "the method's lean, the same each time: its calibration, this crop, this hand; the rest is new with each reading",
    [0.25, 0.9],
  ),
} as const;

/** True where one reading is the other taken again: by the same method, number or interval alike, within `REPEATED.hours`. */
function isRepeat({ reading: first }: Measured, { reading }: Measured): boolean {
  const apartMs = Math.abs(Date.parse(reading.atUtc) - Date.parse(first.atUtc));
  return (
    reading.method === first.method &&
    (reading.range === undefined) === (first.range === undefined) &&
    apartMs <= REPEATED.hours.value * HOUR_MS
  );
}

/** Readings in the order of time, those that are one measurement taken again together: of each group the first begins it. */
export function measurementsOf(measured: readonly Measured[]): readonly (readonly Measured[])[] {
  const groups: Measured[][] = [];
  for (const one of measured) {
    const known = groups.find(([first]) => first !== undefined && isRepeat(first, one));
    if (known) known.push(one);
    else groups.push([one]);
  }
  return groups;
}

/**
 * Error of the mean of readings taken again, wet-basis fraction: sd² = shared² + own²/n. Shared are the method's lean and the
 * place; places that are named apart are places of their own. Of one reading it is `readingSdWb`.
 */
export function repeatedSdWb(group: readonly Measured[]): number {
  const [first] = group;
  if (first === undefined) throw new RangeError("repeatedSdWb: needs at least one reading, got 0");
  const places = new Set(group.map(({ reading }) => reading.place?.trim() ?? "")).size;
  const placeVariance = PLACES.sdWb.value ** 2 / (PLACES.grabs.value * places);
  // What a reading brings of its own beside its method's stated error (a coarse scale) is new with each.
  const methodVariance = READING_METHODS[first.reading.method].sdWb.value ** 2;
  const extraVariance =
    group.reduce((sum, { sdWb }) => sum + sdWb ** 2, 0) / group.length -
    methodVariance -
    PLACES.sdWb.value ** 2 / PLACES.grabs.value;
  const shared = REPEATED.sharedShare.value * methodVariance;
  const own = methodVariance - shared + Math.max(0, extraVariance);
  return Math.sqrt(shared + placeVariance + own / group.length);
}

/** ln of how likely one measurement is under each draw: of numbers by their mean distance, of intervals by their mean ln. */
function measurementLogs(group: readonly Measured[]): readonly number[] {
  const [first] = group;
  if (first === undefined) return [];
  const { reading, moistures } = first;
  if (group.length === 1) return moistures.map((wb) => logLikelihood(wb, reading, first.sdWb));
  if (reading.range !== undefined)
    return moistures.map(
      (_, i) =>
        group.reduce(
          (sum, one) => sum + logLikelihood(one.moistures[i] as number, one.reading, one.sdWb),
          0,
        ) / group.length,
    );
  const sdWb = repeatedSdWb(group);
  return moistures.map((_, i) => {
    const away = group.reduce(
      (sum, one) => sum + (one.reading.moistureWb ?? Number.NaN) - (one.moistures[i] as number),
      0,
    );
    return -0.5 * (away / group.length / sdWb) ** 2;
  });
}

/** ln of how likely all these readings are under each draw, up to a constant. */
export function likelihoodOf(measured: readonly Measured[], draws: number): readonly number[] {
  return measurementsOf(measured)
    .map(measurementLogs)
    .reduce(
      (sum, logs) => sum.map((ln, i) => ln + (logs[i] as number)),
      Array.from({ length: draws }, () => 0),
    );
}
