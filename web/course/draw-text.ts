import type { Axes } from "./axes.ts";
import type { CoursePoint } from "./course-picture.ts";
import type { Inks } from "./inks.ts";

/** A place on the canvas, px. */
export interface Rect {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

export const overlaps = (a: Rect, b: Rect) => a.x0 < b.x1 && a.x1 > b.x0 && a.y0 < b.y1 && a.y1 > b.y0;

const FONT = '"Atkinson Hyperlegible Next Variable", system-ui, sans-serif';
export const fontOf = (px: number, weight: number) => `${weight} ${px}px ${FONT}`;

/** Text with an edge of the ground, so that it is read over lines. */
export function haloText(
  ctx: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  inks: Inks,
): void {
  ctx.lineJoin = "round";
  ctx.lineWidth = 4;
  ctx.strokeStyle = inks.day;
  ctx.strokeText(text, x, y);
  ctx.fillStyle = inks.ink;
  ctx.fillText(text, x, y);
}

/** A line as the boxes of its steps, px: laid out once, for dozens of places are tried against it. */
export function stepsOf(points: readonly CoursePoint[], axes: Axes): Rect[] {
  const at = points.map(({ x, y }) => ({ x: axes.x(x), y: axes.y(y) }));
  return at.map((a, i) => {
    const b = at[i + 1] ?? a;
    return { x0: a.x, x1: b.x + 0.1, y0: Math.min(a.y, b.y) - 2, y1: Math.max(a.y, b.y) + 2 };
  });
}

/** Whether a line runs through a place. */
export const crosses = (steps: readonly Rect[], place: Rect) => steps.some((step) => overlaps(step, place));
