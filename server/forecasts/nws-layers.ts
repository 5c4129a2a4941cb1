import { parse } from "tinyduration";
import {
  celsiusOfFahrenheit,
  HOUR_MS,
  type Mark,
  readIsoTime,
  TO_MM,
  TO_MPS,
} from "../../model/weather/index.ts";
import { UpstreamFailure } from "./failure.ts";

/** Layers of a National Weather Service grid: each has its own list of intervals, expanded alone to hours. */

export interface Interval {
  readonly startMs: number;
  readonly hours: number;
  readonly value: number | null;
}

export interface Layer {
  readonly uom?: string | null | undefined;
  readonly values: readonly { readonly validTime: string; readonly value: number | null }[];
}

/** By unit, never by the layer's name. Prefixes of the vocabulary are dropped before. */
const CONVERT: Readonly<Record<string, Readonly<Record<string, (value: number) => number>>>> = {
  temperature: { degC: (value) => value, degF: celsiusOfFahrenheit, K: (value) => value - 273.15 },
  speed: {
    "km_h-1": (value) => value * TO_MPS.kmh,
    "m_s-1": (value) => value,
    kt: (value) => value * TO_MPS.knot,
    "mi_h-1": (value) => value * TO_MPS.mph,
  },
  share: { percent: (value) => value },
  depth: { mm: (value) => value, in: (value) => value * TO_MM.inch },
};

export type Quantity = "temperature" | "speed" | "share" | "depth";

/** `start/duration` of ISO 8601: PT1H, PT13H, P1D, P1DT6H, P7DT14H. */
export function readInterval(text: string): { readonly startMs: number; readonly hours: number } {
  const [start = "", duration = ""] = text.split("/");
  const time = readIsoTime(start);
  const hours = durationHours(duration);
  if (time.kind === "moment" && time.utcMs % HOUR_MS === 0 && hours !== null) {
    return { startMs: time.utcMs, hours };
  }
  const message = `validTime: got "${text}", must be a whole hour with its zone, a slash and a duration in hours and days`;
  throw new UpstreamFailure({ code: "unreadable", message });
}

function durationHours(text: string): number | null {
  try {
    const { years, months, weeks = 0, days = 0, hours = 0, minutes, seconds, negative } = parse(text);
    if (years || months || minutes || seconds || negative) return null;
    const total = weeks * 168 + days * 24 + hours;
    return Number.isInteger(total) && total > 0 ? total : null;
  } catch {
    return null;
  }
}

/** A layer's intervals in rising order, in the model's unit. A unit that is not known is an error, never a guess. */
export function readLayer(name: string, layer: Layer | undefined, quantity: Quantity): readonly Interval[] {
  if (layer === undefined || layer.values.length === 0) return [];
  const unit = (layer.uom ?? "").replace(/^.*:/, "");
  const convert = CONVERT[quantity]?.[unit];
  if (convert === undefined) {
    const known = Object.keys(CONVERT[quantity] ?? {}).join(", ");
    const message = `${name}: got the unit "${layer.uom ?? "none"}", must be one of ${known}`;
    throw new UpstreamFailure({ code: "surprise-unit", message });
  }
  return layer.values
    .map(({ validTime, value }) => ({
      ...readInterval(validTime),
      value: value === null ? null : convert(value),
    }))
    .sort((a, b) => a.startMs - b.startMs);
}

/** A state holds through its whole interval; hours that no interval covers are null, never the last value carried on. */
export function expandState(
  intervals: readonly Interval[],
  startMs: number,
  count: number,
): (number | null)[] {
  const column = new Array<number | null>(count).fill(null);
  for (const { startMs: from, hours, value } of intervals) {
    fillHours(column, value, (from - startMs) / HOUR_MS, hours);
  }
  return column;
}

function fillHours<T>(column: T[], value: T, from: number, hours: number): void {
  const to = Math.min(column.length, from + hours);
  for (let i = Math.max(0, from); i < to; i += 1) column[i] = value;
}

/** Amounts are given for periods of this length at most, h; what is longer was merged from equal neighbours. */
const NATIVE_AMOUNT_H = 6;

/**
 * How long the period was that an interval's amount is of, h.
 *
 * Equal neighbours are merged, and nothing says whether the amount of the merged interval is that of all or of each.
 * Zeros do not matter. Else an interval longer than 6 h, or one between two shorter ones of which it is a multiple, is
 * read as merged, each part with the whole amount: the wetter way.
 */
export function amountPeriodH(intervals: readonly Interval[], k: number): number {
  const own = intervals[k];
  if (own === undefined || own.value === null || own.value === 0) return own?.hours ?? 1;
  const before = intervals[k - 1]?.hours;
  const after = intervals[k + 1]?.hours;
  if (before !== undefined && after !== undefined) {
    const neighbour = Math.max(before, after);
    if (neighbour < own.hours && neighbour <= NATIVE_AMOUNT_H && own.hours % neighbour === 0)
      return neighbour;
  }
  return Math.min(own.hours, NATIVE_AMOUNT_H);
}

export interface ExpandedRain {
  readonly rainMm: (number | null)[];
  readonly marks: (Mark | null)[];
  /** Intervals read the wetter way. */
  readonly merged: number;
}

/** Amounts divided among the hours of their period; what is coarser than an hour and not zero is marked. */
export function expandRain(intervals: readonly Interval[], startMs: number, count: number): ExpandedRain {
  const rainMm = new Array<number | null>(count).fill(null);
  const marks = new Array<Mark | null>(count).fill(null);
  let merged = 0;
  intervals.forEach(({ startMs: at, hours, value }, k) => {
    const periodH = amountPeriodH(intervals, k);
    const from = (at - startMs) / HOUR_MS;
    fillHours(rainMm, value === null ? null : value / periodH, from, hours);
    if (value === null || value === 0) return;
    if (hours > 1) fillHours(marks, "coarse", from, hours);
    if (periodH < hours) merged += 1;
  });
  return { rainMm, marks, merged };
}
