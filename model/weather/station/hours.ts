import { saturationVapourPressureKPa } from "../air.ts";
import { HOUR_MS } from "../clock.ts";
import type { StationLabel } from "./clock-of-data.ts";

/** Rows of any step as hours labelled by their start: means of states, sums of rain, by the time that each row covers. */

export interface StationValues {
  /** In the model's units, null = missing; rain is of the row's own time. */
  readonly airTempC: readonly (number | null)[];
  readonly vapourKPa: readonly (number | null)[];
  readonly windSpeedMps: readonly (number | null)[];
  readonly solarWm2: readonly (number | null)[] | null;
  readonly rainMm: readonly (number | null)[] | null;
  readonly cloudPct: readonly (number | null)[] | null;
  readonly pressureHpa: readonly (number | null)[] | null;
}

export interface StationHours {
  readonly startMs: number;
  readonly airTempC: (number | null)[];
  readonly relHumidityPct: (number | null)[];
  readonly windSpeedMps: (number | null)[];
  readonly solarWm2: (number | null)[] | null;
  readonly rainMm: (number | null)[] | null;
  readonly cloudPct: (number | null)[] | null;
  readonly pressureHpa: (number | null)[] | null;
}

/** An hour of which less than this was measured is missing. */
const LEAST_COVER = 0.75;

interface Spans {
  /** Start and end of the time that each row's value stands for, ms; NaN where it stands for none. */
  readonly from: Float64Array;
  readonly to: Float64Array;
}

/** The time of each row by its label; instants have none of their own. */
function spansOf(utcMs: Float64Array, stepMs: number, label: StationLabel): Spans {
  const shift = label === "end" ? -stepMs : label === "middle" ? -stepMs / 2 : 0;
  return { from: utcMs.map((ms) => ms + shift), to: utcMs.map((ms) => ms + shift + stepMs) };
}

/** Adds each row's value to the hours that its time touches. */
function spread(
  spans: Spans,
  values: readonly (number | null)[],
  startMs: number,
  count: number,
  sums: boolean,
): (number | null)[] {
  const total = new Float64Array(count);
  const cover = new Float64Array(count);
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    const from = spans.from[i] as number;
    const to = spans.to[i] as number;
    if (value === null || value === undefined || !(to > from)) continue;
    const first = Math.floor((from - startMs) / HOUR_MS);
    const last = Math.ceil((to - startMs) / HOUR_MS);
    for (let h = Math.max(0, first); h < Math.min(count, last); h++) {
      const at = startMs + h * HOUR_MS;
      const overlap = Math.min(to, at + HOUR_MS) - Math.max(from, at);
      if (overlap <= 0) continue;
      total[h] = (total[h] as number) + value * (sums ? overlap / (to - from) : overlap);
      cover[h] = (cover[h] as number) + overlap;
    }
  }
  return Array.from({ length: count }, (_, h) => {
    const covered = cover[h] as number;
    if (covered < LEAST_COVER * HOUR_MS) return null;
    // A sum of which a quarter at most is missing is not stretched: what was not measured is not invented.
    return sums ? (total[h] as number) : (total[h] as number) / covered;
  });
}

/** Instants as means of the time between them: two neighbours no further apart than a step and a half. */
function between(
  utcMs: Float64Array,
  values: readonly (number | null)[],
  stepMs: number,
  beforeMs: number,
): { readonly spans: Spans; readonly values: (number | null)[] } {
  const count = Math.max(0, utcMs.length - 1);
  const from = new Float64Array(count);
  const to = new Float64Array(count);
  const means = new Array<number | null>(count).fill(null);
  for (let i = 0; i < count; i++) {
    const [a, b] = [values[i] ?? null, values[i + 1] ?? null];
    from[i] = (utcMs[i] as number) - beforeMs;
    to[i] = (utcMs[i + 1] as number) - beforeMs;
    if (a !== null && b !== null && (to[i] as number) - (from[i] as number) <= stepMs * 1.5)
      means[i] = (a + b) / 2;
  }
  return { spans: { from, to }, values: means };
}

/**
 * @param utcMs labels in rising order
 * @param windOfHourBefore the wind beside an instant is a mean of the time before it
 * @param solarMeanH the radiation's own averaging time before an instant, h; null = the label's
 */
export function toHours(
  utcMs: Float64Array,
  values: StationValues,
  stepMs: number,
  label: StationLabel,
  solarMeanH: number | null,
  windOfHourBefore = false,
): StationHours {
  const labelled = spansOf(utcMs, stepMs, label);
  const first = Math.min(labelled.from[0] ?? 0, utcMs[0] ?? 0);
  const startMs = Math.floor(first / HOUR_MS) * HOUR_MS;
  const endMs = Math.max(labelled.to.at(-1) ?? 0, utcMs.at(-1) ?? 0);
  const count = Math.max(1, Math.ceil((endMs - startMs) / HOUR_MS));
  const state = (column: readonly (number | null)[], beforeMs = 0) => {
    if (label !== "instant") return spread(labelled, column, startMs, count, false);
    const made = between(utcMs, column, stepMs, beforeMs);
    return spread(made.spans, made.values, startMs, count, false);
  };
  const optional = (column: readonly (number | null)[] | null) => (column === null ? null : state(column));
  // An amount beside an instant is that of the time before it.
  const amounts = label === "instant" ? spansOf(utcMs, stepMs, "end") : labelled;
  const airTempC = state(values.airTempC);
  const vapour = state(values.vapourKPa);
  const all: StationHours = {
    startMs,
    airTempC,
    relHumidityPct: vapour.map((kPa, i) => {
      const tempC = airTempC[i] ?? null;
      return kPa === null || tempC === null
        ? null
        : Math.min(100, (100 * kPa) / saturationVapourPressureKPa(tempC));
    }),
    windSpeedMps: windOfHourBefore
      ? spread(amounts, values.windSpeedMps, startMs, count, false)
      : state(values.windSpeedMps),
    solarWm2: values.solarWm2 === null ? null : state(values.solarWm2, ((solarMeanH ?? 0) / 2) * HOUR_MS),
    rainMm: values.rainMm === null ? null : spread(amounts, values.rainMm, startMs, count, true),
    cloudPct: optional(values.cloudPct),
    pressureHpa: optional(values.pressureHpa),
  };
  return trimmed(all);
}

/** Without the hours at either end of which nothing is known. */
function trimmed(hours: StationHours): StationHours {
  const columns = Object.entries(hours).filter((entry): entry is [string, (number | null)[]] =>
    Array.isArray(entry[1]),
  );
  const known = (i: number) => columns.some(([, column]) => column[i] !== null);
  const count = hours.airTempC.length;
  let from = 0;
  let to = count;
  while (from < count - 1 && !known(from)) from++;
  while (to > from + 1 && !known(to - 1)) to--;
  if (from === 0 && to === count) return hours;
  const cut = Object.fromEntries(columns.map(([name, column]) => [name, column.slice(from, to)]));
  return { ...hours, ...cut, startMs: hours.startMs + from * HOUR_MS };
}
