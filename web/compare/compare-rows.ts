import { HOUR_MS } from "../../model/weather/clock.ts";
import { toldMs } from "../course/told-ms.ts";
import { clockText, dayClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { windowSpanText } from "../format/window-times.ts";
import { moisturePct, ROUTE_LABELS, ROUTE_ORDER, rainText, sentenceCase } from "../format/words.ts";
import type { Kept } from "../state/state.ts";
import { compareTargets, reachMs } from "./compare-sentence.ts";
import { differences } from "./differences.ts";
import { courseCutMs, cutUtcOf } from "./kept-cut.ts";

/** A line of the comparison: heading, chosen cut, kept cut. */
export interface CompareRow {
  readonly head: string;
  readonly now: string;
  readonly kept: string;
}

/** From this on a tenth of an hour says nothing. */
const WHOLE_FROM_H = 10;

function reachText(cut: Kept, targetWb: number, manner: Manner): string {
  const ms = reachMs(cut, targetWb);
  if (ms === null) return "not in this weather";
  const hours = (ms - courseCutMs(cut)) / HOUR_MS;
  return `${numberText(hours, hours < WHOLE_FROM_H ? 1 : 0, manner)} h, ${dayClockText(toldMs(ms), manner)}`;
}

/**
 * Rain of the forecast itself between the cut and a moment, mm: whether the chances are counted or not, both sides are
 * told by the same weather.
 */
function forecastRainMm({ course }: Kept, untilMs: number): number {
  const { startUtc, rainMm } = course.hours;
  return startUtc.reduce((sum, start, i) => (utcMs(start) < untilMs ? sum + (rainMm[i] ?? 0) : sum), 0);
}

function windowText(cut: Kept, route: Kept["route"], manner: Manner): string {
  const answer = cut.option.routes.find(({ route: key }) => key === route);
  if (!answer) return "not asked for";
  const [first] = answer.windows;
  if (!first) return "none in this weather";
  const mm = forecastRainMm(cut, utcMs(first.endUtc));
  const rain = mm > 0 ? `${rainText(mm, manner)} of rain on it` : "no rain on it";
  return `${windowSpanText(first, manner)}, ${rain} by the forecast`;
}

/** "Saturday 09:00; hours count from 10:00, the middle of the mowing". */
function cutText(cut: Kept, manner: Manner): string {
  const text = dayClockText(cutUtcOf(cut), manner);
  const fromMs = courseCutMs(cut);
  return fromMs === utcMs(cutUtcOf(cut))
    ? text
    : `${text}; hours count from ${clockText(toldMs(fromMs), manner)}, the middle of the mowing`;
}

/** The two cuts side by side: what of the treatment differs, hours to each moisture, first window of each route with its rain. */
export function compareRows(now: Kept, kept: Kept, manner: Manner): CompareRow[] {
  const cut = {
    head: "Cut",
    now: cutText(now, manner),
    kept: cutText(kept, manner),
  };
  const treatment = differences(now, kept, manner)
    .filter(({ what }) => what !== "Cut")
    .map((each) => ({ head: each.what, now: each.now, kept: each.kept }));
  const targets = compareTargets(now).map((wb) => ({
    head: `To ${moisturePct(wb, manner)}`,
    now: reachText(now, wb, manner),
    kept: reachText(kept, wb, manner),
  }));
  const routes = [now, kept].flatMap(({ option }) => option.routes.map(({ route }) => route));
  const windows = ROUTE_ORDER.filter((route) => routes.includes(route)).map((route) => ({
    head: `${sentenceCase(ROUTE_LABELS[route])}, first window`,
    now: windowText(now, route, manner),
    kept: windowText(kept, route, manner),
  }));
  return [cut, ...treatment, ...targets, ...windows];
}
