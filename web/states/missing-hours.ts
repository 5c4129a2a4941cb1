import type { WindowsAnswer } from "../../model/harvest/index.ts";
import type { Column, WeatherSeries } from "../../model/weather/index.ts";
import { spanText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";

const HOUR_MS = 3_600_000;

type Hours = WeatherSeries["hours"];

function lacks(column: Column | undefined, i: number): boolean {
  return typeof column?.[i] !== "number";
}

/** What the model needs of an hour, and whether it is not there. A value that can come from another is not missing. */
const NEEDED: readonly (readonly [string, (hours: Hours, i: number) => boolean])[] = [
  ["Temperature", (hours, i) => lacks(hours.airTempC, i)],
  ["Humidity", (hours, i) => lacks(hours.relHumidityPct, i) && lacks(hours.dewPointC, i)],
  ["Wind", (hours, i) => lacks(hours.windSpeedMps, i)],
  ["Sun", (hours, i) => lacks(hours.solarWm2, i) && lacks(hours.cloudPct, i)],
  ["Rain", (hours, i) => lacks(hours.rainMm, i)],
];

interface Run {
  readonly from: number;
  readonly to: number;
}

function runs(count: number, missing: (i: number) => boolean): Run[] {
  const found: Run[] = [];
  for (let i = 0; i < count; i++) {
    if (!missing(i)) continue;
    let to = i + 1;
    while (to < count && missing(to)) to++;
    found.push({ from: i, to });
    i = to;
  }
  return found;
}

/**
 * What the weather lacks, a line for each quantity and for what was done about it: "Wind missing Friday 14:00 to 17:00:
 * filled between its neighbours".
 */
export function missingHours(
  { hours }: Pick<WeatherSeries, "hours">,
  { usableUntilUtc }: Pick<WindowsAnswer, "usableUntilUtc">,
  manner: Manner,
): string[] {
  const startMs = utcMs(hours.startUtc[0] ?? usableUntilUtc);
  const count = hours.startUtc.length;
  const used = Math.round((utcMs(usableUntilUtc) - startMs) / HOUR_MS);
  const lines: string[] = [];
  for (const [name, missing] of NEEDED) {
    const all = runs(count, (i) => missing(hours, i));
    // A quantity that is nowhere is told by its own warning, and not hour by hour.
    if (all[0]?.from === 0 && all[0].to === count) continue;
    const tell = (which: readonly Run[], done: string) => {
      const [first] = which;
      if (!first) return;
      const total = which.reduce((sum, { from, to }) => sum + to - from, 0);
      const span = spanText(startMs + first.from * HOUR_MS, startMs + first.to * HOUR_MS, manner);
      const where =
        which.length === 1
          ? span
          : `${numberText(total, 0, manner)} h in ${numberText(which.length, 0, manner)} gaps, the first ${span}`;
      lines.push(`${name} missing ${where}: ${done}`);
    };
    tell(
      all.filter(({ from }) => from === 0),
      "used from there on",
    );
    tell(
      all.filter(({ from, to }) => from > 0 && to <= used),
      "filled between its neighbours",
    );
    tell(
      all.filter(({ from, to }) => from > 0 && to > used),
      doneAfter(used, all),
    );
  }
  return lines;
}

/** Whether one of the lines of `missingHours` says where the weather ends, and why. */
export function tellsEnd(
  { hours }: Pick<WeatherSeries, "hours">,
  { usableUntilUtc }: Pick<WindowsAnswer, "usableUntilUtc">,
): boolean {
  const startMs = utcMs(hours.startUtc[0] ?? usableUntilUtc);
  const used = Math.round((utcMs(usableUntilUtc) - startMs) / HOUR_MS);
  return NEEDED.some(([, missing]) =>
    runs(hours.startUtc.length, (i) => missing(hours, i)).some(({ from }) => from === used && used > 0),
  );
}

/** Whether the weather ends at a gap of this quantity or had ended before it. */
function doneAfter(used: number, all: readonly Run[]): string {
  return all.some(({ from }) => from === used)
    ? "the weather is used only until there"
    : "after the part that is used";
}
