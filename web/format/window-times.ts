import type { WindowAnswer } from "../../model/harvest/index.ts";
import { inwardSpan } from "../../model/harvest/words.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { type Clock, spanText, utcMs } from "./farm-time.ts";
import { TIMES_TO_MIN } from "./manner.ts";

export interface WindowTimes {
  readonly startMs: number;
  readonly endMs: number;
}

/** A window's edges as the page tells them: inward to five minutes, to the minute where that would leave nothing. */
export function windowTimes({ startUtc, endUtc }: Pick<WindowAnswer, "startUtc" | "endUtc">): WindowTimes {
  const [startMs, endMs] = inwardSpan(utcMs(startUtc), utcMs(endUtc), TIMES_TO_MIN);
  return { startMs, endMs };
}

/** "Friday 13:00 to 18:00". */
export function windowSpanText(window: Pick<WindowAnswer, "startUtc" | "endUtc">, clock: Clock): string {
  const { startMs, endMs } = windowTimes(window);
  return spanText(startMs, endMs, clock);
}

/** Hours to work in, never more than the span that is told beside them. */
export function toldWorkHours(window: Pick<WindowAnswer, "startUtc" | "endUtc" | "workHours">): number {
  const { startMs, endMs } = windowTimes(window);
  return Math.min(window.workHours, (endMs - startMs) / HOUR_MS);
}
