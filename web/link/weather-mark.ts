import type { WeatherSeries } from "../../model/weather/index.ts";

// FNV-1a of 32 bits (Fowler, Noll and Vo): offset basis and prime.
const BASIS = 0x811c9dc5;
const PRIME = 0x01000193;

const known = new WeakMap<WeatherSeries, string>();

/** A short mark by which a device knows its own file again: 8 hex digits of its hours. Not a secret, not a proof. */
export function weatherMark(series: WeatherSeries): string {
  const before = known.get(series);
  if (before !== undefined) return before;
  const { startUtc, airTempC, rainMm } = series.hours;
  let hash = BASIS;
  const add = (text: string) => {
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), PRIME);
  };
  add(`${startUtc[0] ?? ""} ${startUtc.length} ${series.site.latitude} ${series.site.longitude}`);
  for (let i = 0; i < startUtc.length; i++) add(` ${airTempC[i]} ${rainMm[i]}`);
  const mark = (hash >>> 0).toString(16).padStart(8, "0");
  known.set(series, mark);
  return mark;
}
