import type { Axes } from "./axes.ts";
import { bandForms, bandNames, FORMS_BELOW_PX, gutterNames, otherLines } from "./band-names.ts";
import type { CourseMark, CoursePicture, KeptLine } from "./course-picture.ts";
import { rainLengthPx } from "./draw-ground.ts";
import { crosses, fontOf, haloText, overlaps, type Rect, stepsOf } from "./draw-text.ts";
import type { Inks } from "./inks.ts";

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

/** A reading: a diamond on its error bar; hollow where it was questioned. */
function readingMark(
  ctx: CanvasRenderingContext2D,
  { x, y }: Axes,
  { x: hours, y: pct, bar }: CourseMark,
  inks: Inks,
): void {
  const [px, py] = [x(hours), y(pct)];
  const path = () => {
    ctx.beginPath();
    if (bar) {
      const [y0, y1] = [y(bar.hiPct), y(bar.loPct)];
      ctx.moveTo(px - 5, y0);
      ctx.lineTo(px + 5, y0);
      ctx.moveTo(px, y0);
      ctx.lineTo(px, y1);
      ctx.moveTo(px - 5, y1);
      ctx.lineTo(px + 5, y1);
    }
    ctx.moveTo(px, py - 8);
    ctx.lineTo(px + 7, py);
    ctx.lineTo(px, py + 8);
    ctx.lineTo(px - 7, py);
    ctx.closePath();
  };
  path();
  ctx.strokeStyle = inks.day;
  ctx.lineWidth = 5;
  ctx.stroke();
  ctx.fillStyle = bar?.used === false ? inks.day : inks.ink;
  ctx.fill();
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 2;
  ctx.stroke();
}

/** Half the width of a mark with the arrows beside it, px. */
const HANDLE_PX = 16;

/** The boxes of a label of some width, px, at each height from each left edge, the first height first. */
function placesAt(lefts: readonly number[], middles: readonly number[], width: number): Rect[] {
  return middles.flatMap((y) => lefts.map((x0) => ({ x0, x1: x0 + width, y0: y - 9, y1: y + 9 })));
}

const middleOf = ({ x0, x1, y0, y1 }: Rect) => [(x0 + x1) / 2, (y0 + y1) / 2] as const;

/** Places for a label all over the picture, the nearest to its point first. */
function anywhere(area: Axes["area"], px: number, py: number, width: number): Rect[] {
  const rows = Math.floor((area.bottom - area.top - 36) / 14);
  const middles = Array.from({ length: Math.max(0, rows) }, (_, i) => area.top + 10 + 14 * i);
  const lefts = [-120, -60, -30, 9, 30, 60, 120].map((dx) => px + dx - (dx < 0 ? width : 0));
  const farOf = (place: Rect) => {
    const [x, y] = middleOf(place);
    return Math.hypot(x - px, y - py);
  };
  return placesAt([...lefts, area.left + 2, area.right - width - 2], middles, width).sort(
    (a, b) => farOf(a) - farOf(b),
  );
}

/** Heights of the cut's name below the top of its stroke, px: down past the rain, which hangs from there. */
const CUT_NAME_PX = Array.from({ length: 10 }, (_, i) => 14 + 10 * i);

/**
 * Places for the name of the cut: beside its stroke, whatever hangs over it; where there is none, farther off to the
 * right, with a line to it.
 */
export function cutNamePlaces(px: number, topPx: number, width: number): Rect[] {
  const middles = CUT_NAME_PX.map((dy) => topPx + dy);
  return [...placesAt([px + 9, px - 9 - width], middles, width), ...placesAt([px + 60], middles, width)];
}

/** A label within this of its point needs no line to it, px. */
const NEAR_PX = 34;

/** A thin line from a point to a label that stands away from it. */
function leader(ctx: CanvasRenderingContext2D, px: number, py: number, place: Rect, inks: Inks): void {
  const x = Math.min(Math.max(px, place.x0), place.x1);
  const y = py < place.y0 ? place.y0 : py > place.y1 ? place.y1 : (place.y0 + place.y1) / 2;
  if (Math.hypot(x - px, y - py) <= NEAR_PX) return;
  ctx.beginPath();
  ctx.moveTo(px, py);
  ctx.lineTo(x, y);
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 0.8;
  ctx.stroke();
}

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
  else if (axes.widthPx < FORMS_BELOW_PX) bandForms(ctx, axes, picture, inks);
  else taken.push(...bandNames(ctx, axes, picture, inks, taken));
  ctx.font = fontOf(13, 700);
  const tissue = stepsOf(picture.tissue, axes);
  const lines = otherLines(picture, axes);
  for (const mark of picture.marks) {
    const { kind, x: hours, y: pct } = mark;
    const label = axes.widthPx < FORMS_BELOW_PX ? (mark.short ?? mark.label) : mark.label;
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
    } else if (kind === "reading") {
      readingMark(ctx, axes, mark, inks);
    } else {
      ctx.beginPath();
      ctx.arc(px, py, kind === "window" ? 6 : mark.gone ? 3.5 : 4.5, 0, 2 * Math.PI);
      ctx.fillStyle = kind === "window" ? inks.ink : inks.day;
      ctx.fill();
      ctx.lineWidth = mark.gone ? 1.2 : 2;
      ctx.strokeStyle = kind === "window" ? inks.day : inks.ink;
      ctx.stroke();
    }
    const width = ctx.measureText(label).width;
    const heights = [0, 38, -20, 58, -38, 78, -56, 98, 118].map((dy) => py - 18 + dy);
    const isFree = (r: Rect) =>
      r.x0 >= area.left &&
      r.x1 <= area.right &&
      r.y0 >= area.top &&
      r.y1 <= area.bottom - 18 &&
      !taken.some((other) => overlaps(r, other));
    const beside = [px + 9, px - 9 - width, px - width / 2, px + 60];
    const near = (
      kind === "cut" ? cutNamePlaces(px, area.top, width) : placesAt(beside, heights, width)
    ).filter(isFree);
    const clear = (r: Rect) => !crosses(tissue, r);
    const clearOfAll = (r: Rect) => clear(r) && !lines.some((steps) => crosses(steps, r));
    const far = kind === "cut" ? [] : anywhere(area, px, py, width).filter(isFree);
    const besideCut = kind === "cut" ? near.find((r) => clear(r) && r.x0 < px + 60) : undefined;
    const place =
      besideCut ??
      near.find(clearOfAll) ??
      far.find(clearOfAll) ??
      near.find(clear) ??
      far.find(clear) ??
      near[0];
    if (!place) continue;
    taken.push(place);
    leader(ctx, px, kind === "cut" ? (place.y0 + place.y1) / 2 : py, place, inks);
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    haloText(ctx, label, place.x0, (place.y0 + place.y1) / 2, inks);
  }
  ctx.restore();
}
