import { HOUR_MS } from "../../weather/clock.ts";
import type { HourlyWeather } from "../../weather/hourly.ts";

/** Slots, stretches of them, and which stretch of fit ones is a window. */

/** The slots that windows are told in. */
export interface SlotFrame {
  readonly startUtcMs: number;
  readonly slotMs: number;
  readonly count: number;
}

/** A window shorter than this is passed over where a longer one follows, h. */
const SHORT_H = 3;

function slotOf(frame: SlotFrame, utcMs: number): number {
  return (utcMs - frame.startUtcMs) / frame.slotMs;
}

/** The hour of a weather in which a slot begins; outside the weather it is no place of it. */
export function weatherHour(
  frame: Pick<SlotFrame, "startUtcMs" | "slotMs">,
  weather: Pick<HourlyWeather, "startUtcMs">,
  slot: number,
): number {
  return Math.floor((frame.startUtcMs + slot * frame.slotMs - weather.startUtcMs) / HOUR_MS);
}

/** Adds one to every slot that lies wholly in a stretch, from a moment on. */
export function countSlots(
  frame: SlotFrame,
  stretches: readonly { readonly startMs: number; readonly endMs: number }[],
  afterMs: number,
  into: Uint16Array | undefined,
): void {
  if (into === undefined) return;
  for (const { startMs, endMs } of stretches) {
    const first = Math.max(0, Math.ceil(slotOf(frame, Math.max(startMs, afterMs)) - 1e-9));
    const end = Math.min(frame.count, Math.floor(slotOf(frame, endMs) + 1e-9));
    for (let t = first; t < end; t++) into[t] = (into[t] as number) + 1;
  }
}

/** Windows of fewer slots are passed over where a longer one follows. */
export function shortSlotsOf(slotMs: number): number {
  return Math.ceil((SHORT_H * HOUR_MS) / slotMs);
}

/** A window in slots: work starts at `ready` or later and has ended by `until`. */
export interface SlotWindow {
  readonly ready: number;
  readonly until: number;
}

interface Run extends SlotWindow {
  readonly slots: number;
}

/**
 * The first long enough run of fit slots, gaps passed over in which no mowing hour would do; the longest where none is.
 *
 * @param from slots before it are not looked at
 */
export function windowOf(
  fit: Uint8Array | undefined,
  open: Uint8Array,
  shortSlots: number,
  from = 0,
): SlotWindow | null {
  return windowsOf(fit, open, shortSlots, from)[0] ?? null;
}

/**
 * Every run of fit slots, gaps passed over in which no mowing hour would do, but for rain: those that are long enough as
 * they come, behind them the short ones, the longest first.
 *
 * @param from slots before it are not looked at
 * @param rainAfter the slot in which rain ends what began in a slot: no window goes on through it; absent = rain ends none
 */
export function windowsOf(
  fit: Uint8Array | undefined,
  open: Uint8Array,
  shortSlots: number,
  from = 0,
  rainAfter: (slot: number) => number = () => Number.POSITIVE_INFINITY,
): readonly SlotWindow[] {
  if (fit === undefined) return [];
  const runs: Run[] = [];
  let run = null as Run | null;
  for (let t = from; t <= fit.length; t++) {
    if (t < fit.length && open[t] === 0) continue;
    if (t < fit.length && fit[t] === 1) {
      if (run !== null && t >= rainAfter(run.ready)) {
        runs.push(run);
        run = null;
      }
      run = { ready: run?.ready ?? t, until: t + 1, slots: (run?.slots ?? 0) + 1 };
      continue;
    }
    if (run !== null) runs.push(run);
    run = null;
  }
  const long = runs.filter(({ slots }) => slots >= shortSlots);
  const short = runs.filter(({ slots }) => slots < shortSlots);
  return [...long, ...short.sort((a, b) => b.slots - a.slots)];
}
