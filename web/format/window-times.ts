import type { WindowAnswer } from "../../model/harvest/index.ts";
import { type Clock, spanText, utcMs } from "./farm-time.ts";
import { TIMES_TO_MIN } from "./manner.ts";

const STEP_MS = TIMES_TO_MIN * 60_000;

export interface WindowTimes {
  readonly startMs: number;
  readonly endMs: number;
}

/** A window's edges as the page tells them: inward to five minutes, to the minute where that would leave nothing. */
export function windowTimes({ startUtc, endUtc }: Pick<WindowAnswer, "startUtc" | "endUtc">): WindowTimes {
  const exact = { startMs: utcMs(startUtc), endMs: utcMs(endUtc) };
  const startMs = Math.ceil(exact.startMs / STEP_MS) * STEP_MS;
  const endMs = Math.floor(exact.endMs / STEP_MS) * STEP_MS;
  return startMs < endMs ? { startMs, endMs } : exact;
}

/** "Friday 13:00 to 18:00". */
export function windowSpanText(window: Pick<WindowAnswer, "startUtc" | "endUtc">, clock: Clock): string {
  const { startMs, endMs } = windowTimes(window);
  return spanText(startMs, endMs, clock);
}
