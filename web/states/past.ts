import { HOUR_MS, localDayKey } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { dayDateText, fullText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { WeatherSource } from "../weather/source.ts";

/** Weather that lies behind, or of which too little lies ahead for a cut to be offered. */
export interface Past {
  readonly level: "ended" | "ending";
  readonly endMs: number;
}

/** A cut is offered where this much weather follows it, h. */
const AFTER_CUT_H = 24;

/** End of the last hour, UTC ms; null where there is none. */
function endOf({ hours }: Pick<WeatherSeries, "hours">): number | null {
  const last = hours.startUtc.at(-1);
  return last === undefined ? null : utcMs(last) + HOUR_MS;
}

/**
 * Whether weather lies behind the device's clock. Null where it lies ahead, and for invented weather, which has no date of
 * its own. Of a forecast only what is to come is offered: one that runs out has nothing to offer, and is no past.
 */
export function pastOf(
  { kind, series }: { readonly kind: WeatherSource["kind"]; readonly series: Pick<WeatherSeries, "hours"> },
  nowMs: number,
): Past | null {
  const endMs = kind === "sample" ? null : endOf(series);
  if (endMs === null) return null;
  if (endMs <= nowMs) return { level: "ended", endMs };
  const runsOut = kind === "upload" && endMs - nowMs < AFTER_CUT_H * HOUR_MS;
  return runsOut ? { level: "ending", endMs } : null;
}

/**
 * The farm's day that the reader counts from: today, or the first day of invented weather, which has no date of its own. Null
 * of weather that lies behind: every day of it is told by its date.
 */
export function nearDayOf(
  source: { readonly kind: WeatherSource["kind"]; readonly series: Pick<WeatherSeries, "hours" | "site"> },
  nowMs: number,
): string | null {
  const { kind, series } = source;
  const first = series.hours.startUtc[0];
  if (pastOf(source, nowMs) !== null || (kind === "sample" && first === undefined)) return null;
  return localDayKey(kind === "sample" && first !== undefined ? utcMs(first) : nowMs, series.site.timeZone);
}

/** "This weather ended Tuesday 21 Jul 2015: what would have been". */
export function pastText({ level, endMs }: Past, manner: Manner): string {
  if (level === "ended") return `This weather ended ${dayDateText(endMs - 1, manner)}: what would have been`;
  return `This weather ends ${fullText(endMs, manner)}, too soon for another cut: what would have been`;
}
