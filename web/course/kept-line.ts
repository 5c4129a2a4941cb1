import { HOUR_MS } from "../../model/weather/clock.ts";
import { shortDayClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { KeptCourse, KeptLine } from "./course-picture.ts";

/** How much later than it lies the kept course is drawn, ms. */
export function keptShiftMs({ align, cutMs }: KeptCourse, nowCutMs: number): number {
  return align === "cut" ? nowCutMs - cutMs : 0;
}

/** The kept course on the hours of the chosen one. */
export function keptLine(
  kept: KeptCourse,
  nowCutMs: number,
  xOf: (ms: number) => number,
  hoursAcross: number,
  manner: Manner,
): KeptLine {
  const shiftMs = keptShiftMs(kept, nowCutMs);
  const { startUtc, moistureWb } = kept.course.hours;
  const all = [
    { x: xOf(kept.cutMs + shiftMs), y: kept.initialMoistureWb * 100 },
    ...moistureWb.map((wb, i) => ({ x: xOf(utcMs(startUtc[i] ?? "") + HOUR_MS + shiftMs), y: wb * 100 })),
  ];
  const points = all.filter(({ x }) => x >= -1e-6 && x <= hoursAcross + 1e-6);
  const mowX = xOf(kept.mowMs);
  const apart = kept.align === "calendar" && Math.abs(kept.cutMs - nowCutMs) >= HOUR_MS / 2;
  return {
    points,
    cutX: apart && mowX >= 0 && mowX <= hoursAcross ? mowX : null,
    label: `Kept cut ${shortDayClockText(kept.mowMs, manner)}${shiftMs === 0 ? "" : ", laid on this one"}`,
  };
}
