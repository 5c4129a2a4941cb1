import type { Axes } from "./axes.ts";
import type { Inks } from "./inks.ts";
import type { SpreadPoint } from "./spread.ts";

/** Shades of the bands of chance, the wider first. */
const CHANCE_SHADES = [0.2, 0.36] as const;
/** Between two strokes of the hatching, px. */
const HATCH_PX = 7;

function outline(ctx: CanvasRenderingContext2D, { x, y }: Axes, points: readonly SpreadPoint[]): void {
  ctx.beginPath();
  for (const point of points) ctx.lineTo(x(point.x), y(point.hi));
  for (let i = points.length - 1; i >= 0; i--) {
    const point = points[i];
    if (point) ctx.lineTo(x(point.x), y(point.lo));
  }
  ctx.closePath();
}

/** Bands of chance as plain shades, wider ones under narrower ones. */
export function drawChances(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  chances: readonly (readonly SpreadPoint[])[],
  inks: Inks,
): void {
  ctx.save();
  ctx.fillStyle = inks.chance;
  chances.forEach((points, i) => {
    ctx.globalAlpha = CHANCE_SHADES[i] ?? 0.2;
    outline(ctx, axes, points);
    ctx.fill();
  });
  ctx.restore();
}

/** What the estimates leave open, hatched: the earliest at its lower edge, the latest at its upper. */
export function drawRange(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  range: readonly SpreadPoint[],
  inks: Inks,
): void {
  if (range.length < 2) return;
  const { area } = axes;
  ctx.save();
  outline(ctx, axes, range);
  ctx.fillStyle = inks.ink2;
  ctx.globalAlpha = 0.1;
  ctx.fill();
  ctx.clip();
  ctx.globalAlpha = 0.45;
  ctx.strokeStyle = inks.ink2;
  ctx.lineWidth = 0.8;
  ctx.beginPath();
  const height = area.bottom - area.top;
  for (let x = area.left - height; x < area.right; x += HATCH_PX) {
    ctx.moveTo(x, area.bottom);
    ctx.lineTo(x + height, area.top);
  }
  ctx.stroke();
  ctx.restore();
}
