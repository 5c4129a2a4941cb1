import type { Axes } from "./axes.ts";
import type { CoursePicture } from "./course-picture.ts";
import { drawChances, drawRange } from "./draw-spread.ts";
import type { Inks } from "./inks.ts";

/** Rain of one hour that fills the strip at the top, mm. */
const FULL_BAR_MM = 8;
const RAIN_STRIP_PX = 40;

/** Length of the bar of one hour's rain, px: by the root of the amount. */
export function rainLengthPx(rainMm: number): number {
  return Math.max(2, RAIN_STRIP_PX * Math.min(1, Math.sqrt(rainMm / FULL_BAR_MM)));
}

/** Behind the lines: day and night, target bands, midnights, the estimates' range, rain from the top. */
export function drawGround(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  picture: CoursePicture,
  inks: Inks,
): void {
  const { area, x, y } = axes;
  const height = area.bottom - area.top;
  ctx.save();
  ctx.beginPath();
  ctx.rect(area.left, area.top, area.right - area.left, height);
  ctx.clip();
  ctx.fillStyle = inks.day;
  ctx.fillRect(area.left, area.top, area.right - area.left, height);
  ctx.fillStyle = inks.night;
  for (const { x0, x1 } of picture.nights) ctx.fillRect(x(x0), area.top, x(x1) - x(x0), height);
  for (const { route, loPct, hiPct } of picture.bands) {
    const top = y(hiPct);
    ctx.globalAlpha = 0.2;
    ctx.fillStyle = inks.routes[route];
    ctx.fillRect(area.left, top, area.right - area.left, y(loPct) - top);
    ctx.globalAlpha = 1;
    ctx.strokeStyle = inks.ink2;
    ctx.lineWidth = 0.7;
    ctx.setLineDash([1.5, 3]);
    for (const edge of [loPct, hiPct]) {
      ctx.beginPath();
      ctx.moveTo(area.left, y(edge));
      ctx.lineTo(area.right, y(edge));
      ctx.stroke();
    }
    ctx.setLineDash([]);
  }
  ctx.strokeStyle = inks.rule;
  ctx.lineWidth = 0.7;
  for (const { x: at, day } of picture.ticks) {
    if (day === null) continue;
    ctx.beginPath();
    ctx.moveTo(x(at), area.top);
    ctx.lineTo(x(at), area.bottom);
    ctx.stroke();
  }
  drawChances(ctx, axes, picture.chances, inks);
  drawRange(ctx, axes, picture.range, inks);
  ctx.fillStyle = inks.rain;
  for (const { x0, x1, rainMm } of picture.rain) {
    ctx.fillRect(x(x0) + 0.3, area.top, Math.max(1, x(x1) - x(x0) - 0.6), rainLengthPx(rainMm));
  }
  ctx.restore();
}
