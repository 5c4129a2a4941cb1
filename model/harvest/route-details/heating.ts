import { coefficient } from "../../coefficient.ts";
import { requireRange } from "../../limits.ts";
import { DAY_MS } from "../../weather/clock.ts";
import { PROBE_C } from "./limits.ts";

/** What to do at a temperature inside a stack of new hay. The strictest of the sources stands in `action`. */
export interface HeatStep {
  readonly fromF: number;
  readonly level: "steady" | "watch" | "open" | "fire-service" | "fire";
  readonly action: string;
  readonly others: string;
}

const KENTUCKY = "University of Kentucky, 2004";

export const HEAT_SOURCE =
  "Purdue Extension, hay moisture and fires, 2024; Hay & Forage Grower reporting Penn State; others as named";

/** Rising. A temperature belongs to the last row that begins at or below it. */
export const HEAT_TABLE: readonly HeatStep[] = [
  {
    fromF: -459,
    level: "steady",
    action: "Probe daily until it is steady.",
    others: `to 130 °F (54 °C) no fire danger, some quality lost (${KENTUCKY})`,
  },
  {
    fromF: 125,
    level: "watch",
    action: "It is heating: probe daily at least, and look for the hottest place.",
    others: "quality is being lost",
  },
  {
    fromF: 150,
    level: "open",
    action: "Probe every 2 hours and open the stack to cool it.",
    others: "twice daily (Purdue, Penn State); daily (Mississippi column); other advisers every 2 hours",
  },
  {
    fromF: 160,
    level: "fire-service",
    action: "Probe every 2 hours, ask the fire service before opening the stack.",
    others:
      "open if possible, every 2 hours (Purdue, Penn State); every 4 hours; one source: call the fire service",
  },
  {
    fromF: 175,
    level: "fire-service",
    action: "Fire pockets are likely: call the fire service, stop all air movement, keep off the stack.",
    others: `fire imminent at 180 °F (82 °C) (${KENTUCKY})`,
  },
  {
    fromF: 190,
    level: "fire",
    action: "Move hay only with the fire service present, hoses ready.",
    others: "Purdue, Penn State",
  },
  {
    fromF: 200,
    level: "fire",
    action: "Fire is probably there: fire service only, nobody on the stack.",
    others: `200-212 °F (93-100 °C) fire present or near certain (${KENTUCKY}; Mississippi column)`,
  },
];

export const HEATING = {
  baseC: coefficient(
    30,
    "°C",
    "published",
    "heating degree days over 30 °C, 86 °F (Lewandowski on Coblentz)",
    null,
  ),
  keptFDays: coefficient(
    200,
    "°F days",
    "published",
    "small squares at or under 20 % moisture stay under 200; quality loss climbs past 300 (Ohio State column, 2013)",
    [200, 300],
  ),
  watchDays: coefficient(42, "d", "published", "most fires in 2-4 weeks, up to 6", [14, 42]),
} as const;

/** °C of a temperature in °F; exact, a screen rounds it. */
export function celsiusOf(tempF: number): number {
  return ((tempF - 32) * 5) / 9;
}

export function fahrenheitOf(tempC: number): number {
  return (tempC * 9) / 5 + 32;
}

/** A whole degree read in Celsius must not fall short of its row by rounding: half a degree counts upward. */
const READING_SLACK_C = 0.5;

/** The row of a temperature measured inside the stack, °C. Acid-treated hay may give off toxic smoke. */
export function heatStep(tempC: number): HeatStep {
  const { min, max } = PROBE_C;
  requireRange("heatStep", "tempC", tempC, min, max);
  const step = HEAT_TABLE.findLast(({ fromF }) => tempC + READING_SLACK_C >= celsiusOf(fromF));
  if (step === undefined) throw new RangeError(`heatStep: no row for ${tempC}`);
  return step;
}

export interface HeatReading {
  readonly atUtcMs: number;
  readonly tempC: number;
}

export interface HeatLog {
  readonly hottestC: number;
  /** Of the hottest reading of the 24 hours up to the last one: a cool edge probed after midnight hides no hot middle. */
  readonly now: HeatStep;
  /** Between the last two days that were probed; null with one. */
  readonly risePerDayC: number | null;
  /** Sum over the days of (hottest of the day - 30 °C) where above, °C days. Days not probed are not counted. */
  readonly heatingDegreeDaysC: number;
  readonly daysProbed: number;
}

/**
 * A log of probe readings in one lot of hay.
 *
 * @param readings one and more, in any order
 * @returns null where there are none
 */
export function heatLog(readings: readonly HeatReading[]): HeatLog | null {
  const hottestOf = new Map<number, number>();
  for (const { atUtcMs, tempC } of readings) {
    const day = Math.floor(atUtcMs / DAY_MS);
    hottestOf.set(day, Math.max(tempC, hottestOf.get(day) ?? Number.NEGATIVE_INFINITY));
  }
  const days = [...hottestOf].sort(([a], [b]) => a - b);
  const last = days.at(-1);
  if (last === undefined) return null;
  const before = days.at(-2);
  const base = HEATING.baseC.value;
  const lastMs = Math.max(...readings.map(({ atUtcMs }) => atUtcMs));
  const lately = readings.filter(({ atUtcMs }) => atUtcMs > lastMs - DAY_MS);
  return {
    hottestC: Math.max(...hottestOf.values()),
    now: heatStep(Math.max(...lately.map(({ tempC }) => tempC))),
    risePerDayC: before ? (last[1] - before[1]) / (last[0] - before[0]) : null,
    heatingDegreeDaysC: days.reduce((sum, [, tempC]) => sum + Math.max(0, tempC - base), 0),
    daysProbed: days.length,
  };
}
