import type { FarmClock } from "./work-hours.ts";

const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;

function two(n: number): string {
  return n < 10 ? `0${n}` : String(n);
}

/** "Thursday 14:00" on the farm's clock. */
export function whenWords(clock: FarmClock, utcMs: number): string {
  const { weekday, hour, minute } = clock.partsAt(utcMs);
  return `${WEEKDAYS[weekday]} ${two(hour)}:${two(minute)}`;
}

/** "Thursday 14:00 to 18:30", or with both days where they differ. */
export function spanWords(clock: FarmClock, startMs: number, endMs: number): string {
  const from = whenWords(clock, startMs);
  const to =
    clock.dayNumberAt(startMs) === clock.dayNumberAt(endMs)
      ? whenWords(clock, endMs).slice(-5)
      : whenWords(clock, endMs);
  return `${from} to ${to}`;
}

/** A moisture in per cent: "38 %", with a decimal only where the edge of a band needs it. */
export function percentWords(moistureWb: number): string {
  return `${Math.round(moistureWb * 100)} %`;
}

/** A band edge in per cent, to a tenth where it is not a whole number. */
export function edgeWords(moistureWb: number): string {
  return `${Math.round(moistureWb * 1000) / 10} %`;
}

/** "1 hour", "3.5 hours", "52 hours". */
export function hoursWords(hours: number): string {
  const shown = hours < 10 ? Math.round(hours * 10) / 10 : Math.round(hours);
  return shown === 1 ? "1 hour" : `${shown} hours`;
}

/** Millimetres of rain: "0.4 mm", "12 mm". */
export function rainWords(rainMm: number): string {
  return `${rainMm < 10 ? Math.round(rainMm * 10) / 10 : Math.round(rainMm)} mm`;
}
