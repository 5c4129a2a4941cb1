import type { RouteKey } from "../../model/harvest/keys.ts";
import { vesselPath } from "../board/vessels.ts";
import { type Axes, rainLengthPx } from "./draw-ground.ts";
import type { Inks } from "./inks.ts";
import type { KeptLine } from "./kept-line.ts";
import type { CoursePicture, CoursePoint } from "./to-course.ts";

interface Rect {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

const overlaps = (a: Rect, b: Rect) => a.x0 < b.x1 && a.x1 > b.x0 && a.y0 < b.y1 && a.y1 > b.y0;

const FONT = '"Atkinson Hyperlegible Next Variable", system-ui, sans-serif';
const fontOf = (px: number, weight: number) => `${weight} ${px}px ${FONT}`;

function haloText(ctx: CanvasRenderingContext2D, text: string, x: number, y: number, inks: Inks): void {
  ctx.lineJoin = "round";
  ctx.lineWidth = 4;
  ctx.strokeStyle = inks.day;
  ctx.strokeText(text, x, y);
  ctx.fillStyle = inks.ink;
  ctx.fillText(text, x, y);
}

/** Room of a route's form before its name, px. */
const FORM_PX = 20;

/** The route's form in its colour, as its vessel stands on the board: 14 by 12 px from its left edge. */
function form(ctx: CanvasRenderingContext2D, route: RouteKey, x: number, y: number, inks: Inks): void {
  const path = new Path2D(vesselPath(route, { x0: x, x1: x + 14, y0: y - 6, y1: y + 6 }));
  ctx.fillStyle = inks.routes[route];
  ctx.fill(path);
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = inks.ink;
  ctx.stroke(path);
}

function drop(ctx: CanvasRenderingContext2D, x: number, footY: number, ink: string): void {
  ctx.beginPath();
  ctx.moveTo(x, footY - 9);
  ctx.bezierCurveTo(x + 1.5, footY - 6, x + 3, footY - 4.5, x + 3, footY - 3);
  ctx.arc(x, footY - 3, 3, 0, Math.PI);
  ctx.bezierCurveTo(x - 3, footY - 4.5, x - 1.5, footY - 6, x, footY - 9);
  ctx.strokeStyle = ink;
  ctx.lineWidth = 1.2;
  ctx.stroke();
}

/** A line as the boxes of its steps, px: laid out once, for dozens of places are tried against it. */
function stepsOf(points: readonly CoursePoint[], axes: Axes): Rect[] {
  const at = points.map(({ x, y }) => ({ x: axes.x(x), y: axes.y(y) }));
  return at.map((a, i) => {
    const b = at[i + 1] ?? a;
    return { x0: a.x, x1: b.x + 0.1, y0: Math.min(a.y, b.y) - 2, y1: Math.max(a.y, b.y) + 2 };
  });
}

/** Whether a line runs through a place. */
const crosses = (steps: readonly Rect[], place: Rect) => steps.some((step) => overlaps(step, place));

/** Names of the bands, as far left as no line, no mark and no other name stands in the way. */
function bandNames(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  picture: CoursePicture,
  inks: Inks,
  taken: readonly Rect[],
): Rect[] {
  const { area } = axes;
  const px = area.right - area.left < 480 ? 12 : 13;
  const tissue = stepsOf(picture.tissue, axes);
  const others = [...picture.opinions.map(({ points }) => points), picture.kept?.points ?? []];
  const lines = [tissue, ...others.map((points) => stepsOf(points, axes))];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  return picture.bands.map(({ route, label, range, loPct, hiPct }) => {
    const middle = (axes.y(loPct) + axes.y(hiPct)) / 2;
    ctx.font = fontOf(px, 400);
    const rangeWidth = ctx.measureText(range).width;
    ctx.font = fontOf(px, 700);
    const nameWidth = ctx.measureText(`${label} `).width;
    const width = FORM_PX + nameWidth + rangeWidth;
    const at = (x0: number, y: number): Rect => ({ x0, x1: x0 + width, y0: y - 8, y1: y + 8 });
    // A tall band has room for its name above and below its middle too.
    const reach = (axes.y(loPct) - axes.y(hiPct)) / 2 - 9;
    const heights = reach >= 9 ? [middle, middle - reach, middle + reach] : [middle];
    const steps = Math.max(1, Math.floor((area.right - area.left - width - 12) / 6));
    const places = heights.flatMap((y) =>
      Array.from({ length: steps }, (_, i) => at(area.left + 6 + 6 * i, y)),
    );
    const free = (place: Rect) => !taken.some((other) => overlaps(other, place));
    const place =
      places.find((each) => free(each) && !lines.some((steps) => crosses(steps, each))) ??
      places.find((each) => free(each) && !crosses(tissue, each)) ??
      places.find(free) ??
      at(area.left + 6, middle);
    const y = (place.y0 + place.y1) / 2;
    haloText(ctx, label, place.x0 + FORM_PX, y, inks);
    ctx.font = fontOf(px, 400);
    haloText(ctx, range, place.x0 + FORM_PX + nameWidth, y, inks);
    form(ctx, route, place.x0, y, inks);
    return place;
  });
}

/** Room of the axis numbers at the right of the gutter, and height of a line of names, px. */
const TICK_ROOM_PX = 34;
const NAME_LINE_PX = 14;

/** Names of the bands in the gutter, where the shared calendar leaves room for them: name over range, or both in a line. */
function gutterNames(ctx: CanvasRenderingContext2D, axes: Axes, picture: CoursePicture, inks: Inks): void {
  const right = axes.area.left - TICK_ROOM_PX;
  ctx.textAlign = "right";
  ctx.textBaseline = "middle";
  for (const { route, label, range, loPct, hiPct } of picture.bands) {
    const middle = (axes.y(loPct) + axes.y(hiPct)) / 2;
    const tall = axes.y(loPct) - axes.y(hiPct) >= 2 * NAME_LINE_PX;
    ctx.font = fontOf(13, 400);
    const rangeWidth = ctx.measureText(` ${range}`).width;
    ctx.fillStyle = inks.ink;
    ctx.fillText(range, right, tall ? middle + NAME_LINE_PX / 2 : middle);
    ctx.font = fontOf(13, 700);
    ctx.fillText(label, tall ? right : right - rangeWidth, tall ? middle - NAME_LINE_PX / 2 : middle);
    const nameWidth = ctx.measureText(label).width;
    const wide = tall ? Math.max(nameWidth, rangeWidth) : nameWidth + rangeWidth;
    form(ctx, route, right - wide - FORM_PX, middle, inks);
  }
}

/** The cut of the kept course: a broken stroke, so that it is not taken for the chosen one's. */
function keptMark(ctx: CanvasRenderingContext2D, axes: Axes, kept: KeptLine, inks: Inks): Rect[] {
  if (kept.cutX === null) return [];
  const { area } = axes;
  const x = axes.x(kept.cutX);
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 1.6;
  ctx.setLineDash([6, 4]);
  ctx.beginPath();
  ctx.moveTo(x, area.top);
  ctx.lineTo(x, area.bottom);
  ctx.stroke();
  ctx.setLineDash([]);
  ctx.font = fontOf(13, 400);
  const width = ctx.measureText(kept.label).width;
  const x0 = x + 6 + width <= area.right ? x + 6 : x - 6 - width;
  const y = area.top + 34;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  haloText(ctx, kept.label, x0, y, inks);
  return [
    { x0: x - 3, x1: x + 3, y0: area.top, y1: area.bottom },
    { x0, x1: x0 + width, y0: y - 9, y1: y + 9 },
  ];
}

/** Half the width of a mark with the arrows beside it, px. */
const HANDLE_PX = 16;

/** Over the lines: window of the chosen route, cut mark, ringed operations with name and hour, dew along the foot. */
export function drawMarks(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  picture: CoursePicture,
  inks: Inks,
): void {
  const { area, x, y } = axes;
  ctx.save();
  for (const { x0, x1 } of picture.windows) {
    ctx.fillStyle = inks.ink;
    ctx.fillRect(x(x0), area.bottom - 4, Math.max(2, x(x1) - x(x0)), 4);
  }
  let lastX = Number.NEGATIVE_INFINITY;
  for (const { x: at } of picture.dew) {
    if (x(at) - lastX < 9) continue;
    lastX = x(at);
    drop(ctx, lastX, area.bottom - 7, inks.rain);
  }
  const taken: Rect[] = picture.rain.map(({ x0, x1, rainMm }) => ({
    x0: x(x0),
    x1: x(x1),
    y0: area.top,
    y1: area.top + rainLengthPx(rainMm),
  }));
  for (const { kind, x: hours, y: pct } of picture.marks) {
    const px = x(hours);
    const py = y(pct);
    taken.push(
      kind === "cut"
        ? { x0: px - 3, x1: px + 3, y0: area.top, y1: area.bottom }
        : { x0: px - HANDLE_PX, x1: px + HANDLE_PX, y0: py - 8, y1: py + 8 },
    );
  }
  if (picture.kept) taken.push(...keptMark(ctx, axes, picture.kept, inks));
  if (picture.shared) gutterNames(ctx, axes, picture, inks);
  else taken.push(...bandNames(ctx, axes, picture, inks, taken));
  ctx.font = fontOf(13, 700);
  const tissue = stepsOf(picture.tissue, axes);
  for (const { kind, x: hours, y: pct, label } of picture.marks) {
    const px = x(hours);
    const py = y(pct);
    if (kind === "cut") {
      ctx.fillStyle = inks.ink;
      ctx.fillRect(px - 1.2, area.top, 2.4, area.bottom - area.top);
      ctx.beginPath();
      ctx.moveTo(px - 6, area.top);
      ctx.lineTo(px + 6, area.top);
      ctx.lineTo(px, area.top + 9);
      ctx.fill();
    } else {
      ctx.beginPath();
      ctx.arc(px, py, kind === "window" ? 6 : 4.5, 0, 2 * Math.PI);
      ctx.fillStyle = kind === "window" ? inks.ink : inks.day;
      ctx.fill();
      ctx.lineWidth = 2;
      ctx.strokeStyle = kind === "window" ? inks.day : inks.ink;
      ctx.stroke();
    }
    const width = ctx.measureText(label).width;
    const level = kind === "cut" ? area.top + 14 : py - 18;
    const shifts = kind === "cut" ? [0, 18, 34] : [0, 38, -20, 58, -38, 78, -56, 98, 118];
    const tries: Rect[] = shifts.flatMap((dy) =>
      [px + 9, px - 9 - width, px - width / 2, px + 60].map((x0) => ({
        x0,
        x1: x0 + width,
        y0: level + dy - 9,
        y1: level + dy + 9,
      })),
    );
    const free = tries.filter(
      (r) =>
        r.x0 >= area.left &&
        r.x1 <= area.right &&
        r.y0 >= area.top &&
        r.y1 <= area.bottom - 18 &&
        !taken.some((other) => overlaps(r, other)),
    );
    const place = free.find((r) => !crosses(tissue, r)) ?? free[0];
    if (!place) continue;
    taken.push(place);
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    haloText(ctx, label, place.x0, (place.y0 + place.y1) / 2, inks);
  }
  ctx.restore();
}
