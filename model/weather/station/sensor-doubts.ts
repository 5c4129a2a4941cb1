import type { ProblemList } from "../problems.ts";
import type { WeatherSeries } from "../series.ts";

/** A sensor that sticks or jumps: told, never changed. */

/** The same value to the last digit for so long is no weather, h. Calm air and saturated air are. Assumed. */
const FLAT_HOURS = 24;
/** An hour that stands so far from both its neighbours is no weather, °C. Assumed. */
const SPIKE_C = 15;

interface Run {
  readonly from: number;
  readonly hours: number;
}

/** The longest run of one value, not counting those that weather itself keeps. */
function longestRun(column: readonly (number | null)[], isPlain: (value: number) => boolean): Run {
  let best: Run = { from: 0, hours: 0 };
  let from = 0;
  for (let i = 0; i < column.length; i++) {
    const value = column[i] ?? null;
    if (value === null || !isPlain(value) || value !== column[from]) {
      from = i;
      if (value === null || !isPlain(value)) continue;
    }
    const hours = i - from + 1;
    if (hours > best.hours) best = { from, hours };
  }
  return best;
}

/** Says of each column that stands still or jumps, when and for how long. */
export function tellSensorDoubts({ hours }: WeatherSeries, problems: ProblemList): void {
  const looked = [
    ["airTempC", hours.airTempC, () => true],
    ["relHumidityPct", hours.relHumidityPct, (value: number) => value < 99],
    ["windSpeedMps", hours.windSpeedMps, (value: number) => value > 0],
  ] as const;
  for (const [name, column, isPlain] of looked) {
    const { from, hours: count } = longestRun(column, isPlain);
    if (count < FLAT_HOURS) continue;
    const at = hours.startUtc[from] ?? "";
    const message = `${name} stands at ${column[from]} for ${count} hours from ${at}: does the sensor stick?`;
    problems.warn("flat-line", message, { column: name });
  }
  let spikes = 0;
  let first = "";
  hours.airTempC.forEach((value, i) => {
    const [before, after] = [hours.airTempC[i - 1] ?? null, hours.airTempC[i + 1] ?? null];
    if (value === null || before === null || after === null) return;
    const isSpike = Math.min(Math.abs(value - before), Math.abs(value - after)) > SPIKE_C;
    if (!isSpike || value > before !== value > after) return;
    spikes += 1;
    if (first === "") first = hours.startUtc[i] ?? "";
  });
  if (spikes > 0) {
    const times = spikes === 1 ? "once" : `${spikes} times`;
    const message = `airTempC jumps by more than ${SPIKE_C} °C for a single hour ${times}, first at ${first}`;
    problems.warn("spike", message, { column: "airTempC" });
  }
}
