import type { DayColumn } from "./calendar.ts";

/** Least width that a thumb meets, px. */
export const THUMB_PX = 44;

export interface RainSpan {
  readonly key: string;
  readonly x0: number;
  readonly x1: number;
  readonly sentence: string;
}

type Day = Pick<DayColumn, "dayKey" | "x0" | "x1" | "sentence">;

/** The days of the rain strip as targets: one each, or neighbours together where a day alone is too narrow to be met. */
export function rainSpans(days: readonly Day[]): RainSpan[] {
  const spans: RainSpan[] = [];
  for (const { dayKey, x0, x1, sentence } of days) {
    const last = spans.at(-1);
    const restPx = (days.at(-1)?.x1 ?? x1) - x0;
    // What is left at the end goes to the last target where it makes none of its own.
    if (last && (last.x1 - last.x0 < THUMB_PX || restPx < THUMB_PX))
      spans[spans.length - 1] = { ...last, x1, sentence: `${last.sentence} ${sentence}` };
    else spans.push({ key: dayKey, x0, x1, sentence });
  }
  return spans;
}

/** A mark on the strip as a target: as wide as it is, or widened to both sides where days are narrow. */
export function thumbSpan(
  x0: number,
  x1: number,
  days: readonly Day[],
): { readonly x0: number; readonly x1: number } {
  const least = days.some((day) => day.x1 - day.x0 < THUMB_PX) ? THUMB_PX : 8;
  const more = Math.max(0, least - (x1 - x0)) / 2;
  const from = days[0]?.x0 ?? x0;
  const start = Math.max(from, Math.min(x0 - more, (days.at(-1)?.x1 ?? x1) - Math.max(least, x1 - x0)));
  return { x0: start, x1: start + Math.max(least, x1 - x0) };
}
