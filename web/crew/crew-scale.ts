import { HOUR_MS } from "../../model/weather/clock.ts";
import type { Scale } from "../board/calendar.ts";
import { farmDays, utcMs } from "../format/farm-time.ts";

/** Hours of the farm's day in which crews work; an hour of the night has this share of their width. */
const DAY_FROM_H = 6;
const DAY_TO_H = 21;
const NIGHT_SHARE = 0.2;

/** A calendar whose nights are narrow: whole farm days from the one that holds `fromMs` to the one that holds `toMs`. */
export function crewScale(fromMs: number, toMs: number, zone: string, x0: number, x1: number): Scale {
  const days = farmDays(fromMs, toMs, zone);
  // Hour by hour from the first moment of each day, so that a day of 23 or 25 h keeps its hours.
  const weights: number[] = [];
  for (const { startMs, endMs } of days)
    for (let ms = startMs; ms < endMs; ms += HOUR_MS) {
      const hour = (ms - startMs) / HOUR_MS;
      weights.push(hour >= DAY_FROM_H && hour < DAY_TO_H ? 1 : NIGHT_SHARE);
    }
  const upTo = [0];
  for (const weight of weights) upTo.push((upTo.at(-1) ?? 0) + weight);
  const all = Math.max(1, upTo.at(-1) ?? 1);
  const perWeight = (x1 - x0) / all;
  return {
    fromMs,
    toMs,
    x0,
    x1,
    x: (moment) => {
      const hours = Math.min(weights.length, Math.max(0, (utcMs(moment) - fromMs) / HOUR_MS));
      const whole = Math.min(weights.length - 1, Math.floor(hours));
      return x0 + ((upTo[whole] ?? 0) + (hours - whole) * (weights[whole] ?? 0)) * perWeight;
    },
  };
}
