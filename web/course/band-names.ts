import type { RouteKey } from "../../model/harvest/keys.ts";
import { vesselPath } from "../board/vessels.ts";
import type { Axes } from "./axes.ts";
import type { CoursePicture } from "./course-picture.ts";
import { crosses, fontOf, haloText, overlaps, type Rect, stepsOf } from "./draw-text.ts";
import type { Inks } from "./inks.ts";

/** Places across that are tried for a name lie this far apart, px. */
const STEP_PX = 6;
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

/** The lines beside the middle course that words should not stand on. */
export function otherLines({ opinions, kept, before }: CoursePicture, axes: Axes): Rect[][] {
  return [...opinions.map(({ points }) => points), kept?.points ?? [], before].map((points) =>
    stepsOf(points, axes),
  );
}

/** A picture less wide than this has no room for the bands' names: their forms stand in it, px; the key has the names. */
export const FORMS_BELOW_PX = 520;

/** Forms of the bands at their left end, before the cut. */
export function bandForms(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  { bands }: CoursePicture,
  inks: Inks,
): void {
  for (const { route, loPct, hiPct } of bands)
    form(ctx, route, axes.area.left + 1, (axes.y(loPct) + axes.y(hiPct)) / 2, inks);
}

/** Names of the bands, as far left as no line, no mark and no other name stands in the way. */
export function bandNames(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  picture: CoursePicture,
  inks: Inks,
  taken: readonly Rect[],
): Rect[] {
  const { area } = axes;
  const px = 13;
  const tissue = stepsOf(picture.tissue, axes);
  const lines = [tissue, ...otherLines(picture, axes)];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  return picture.bands.map(({ route, label, range, loPct, hiPct }) => {
    ctx.font = fontOf(px, 400);
    const rangeWidth = ctx.measureText(range).width;
    ctx.font = fontOf(px, 700);
    const nameWidth = ctx.measureText(`${label} `).width;
    const middle = (axes.y(loPct) + axes.y(hiPct)) / 2;
    // A tall band has room for its name above and below its middle too.
    const reach = (axes.y(loPct) - axes.y(hiPct)) / 2 - 9;
    const heights = reach >= 9 ? [middle, middle - reach, middle + reach] : [middle];
    const at = (width: number, x0: number, y: number): Rect => ({ x0, x1: x0 + width, y0: y - 8, y1: y + 8 });
    const freePlaces = (width: number) => {
      const count = Math.max(1, Math.floor((area.right - area.left - width - 12) / STEP_PX));
      return heights
        .flatMap((y) => Array.from({ length: count }, (_, i) => at(width, area.left + 6 + STEP_PX * i, y)))
        .filter((place) => !taken.some((other) => overlaps(other, place)));
    };
    const full = FORM_PX + nameWidth + rangeWidth;
    const places = freePlaces(full);
    // Where there is no room the range goes first: the axis has it too.
    const short = freePlaces(FORM_PX + nameWidth);
    const clear = (place: Rect) => !lines.some((steps) => crosses(steps, place));
    const place =
      places.find(clear) ??
      places.find((each) => !crosses(tissue, each)) ??
      short.find((each) => !crosses(tissue, each)) ??
      places[0] ??
      short[0] ??
      at(full, area.left + 6, middle);
    const y = (place.y0 + place.y1) / 2;
    haloText(ctx, label, place.x0 + FORM_PX, y, inks);
    if (place.x1 - place.x0 > FORM_PX + nameWidth) {
      ctx.font = fontOf(px, 400);
      haloText(ctx, range, place.x0 + FORM_PX + nameWidth, y, inks);
    }
    form(ctx, route, place.x0, y, inks);
    return place;
  });
}

/** What the axis up measures, in the lines it takes where a gutter stands beside it. */
export const AXIS_TITLE: readonly string[] = ["Moisture,", "% wet basis"];

/** Room of the axis numbers at the right of the gutter, and height of a line of names, px. */
const TICK_ROOM_PX = 34;
const NAME_LINE_PX = 14;

/** How a name stands in the gutter: over its range, beside it, or alone, as the axis has the range too. */
type NameForm = "over" | "beside" | "alone";

/** A name's form by the room it has down (to its neighbours or in its band) and across, px. */
export function nameForm(roomDownPx: number, roomAcrossPx: number, nameAndRangePx: number): NameForm {
  if (roomDownPx >= 2 * NAME_LINE_PX) return "over";
  return nameAndRangePx <= roomAcrossPx ? "beside" : "alone";
}

/** Names of the bands in the gutter, where the shared calendar leaves room for them. */
export function gutterNames(
  ctx: CanvasRenderingContext2D,
  axes: Axes,
  picture: CoursePicture,
  inks: Inks,
): void {
  const right = axes.area.left - TICK_ROOM_PX;
  ctx.textAlign = "right";
  ctx.textBaseline = "middle";
  ctx.font = fontOf(13, 400);
  ctx.fillStyle = inks.ink;
  for (const [i, line] of AXIS_TITLE.entries())
    ctx.fillText(line, right, axes.area.top + NAME_LINE_PX * (i + 0.5));
  const middles = picture.bands.map(({ loPct, hiPct }) => (axes.y(loPct) + axes.y(hiPct)) / 2);
  for (const [i, { route, label, range, loPct, hiPct }] of picture.bands.entries()) {
    const middle = middles[i] ?? 0;
    ctx.font = fontOf(13, 400);
    const rangeWidth = ctx.measureText(` ${range}`).width;
    ctx.font = fontOf(13, 700);
    const nameWidth = ctx.measureText(label).width;
    const tall = axes.y(loPct) - axes.y(hiPct);
    const fits = FORM_PX + nameWidth + rangeWidth <= right;
    // A name that is too wide beside its range takes the room between it and its neighbours.
    const apart = Math.min(...middles.map((other, k) => (k === i ? Infinity : Math.abs(other - middle))));
    const formOf = nameForm(fits ? tall : Math.max(tall, apart), right - FORM_PX, nameWidth + rangeWidth);
    ctx.fillStyle = inks.ink;
    ctx.fillText(
      label,
      formOf === "beside" ? right - rangeWidth : right,
      formOf === "over" ? middle - NAME_LINE_PX / 2 : middle,
    );
    ctx.font = fontOf(13, 400);
    if (formOf !== "alone")
      ctx.fillText(range, right, formOf === "over" ? middle + NAME_LINE_PX / 2 : middle);
    const wide =
      formOf === "beside"
        ? nameWidth + rangeWidth
        : formOf === "over"
          ? Math.max(nameWidth, rangeWidth)
          : nameWidth;
    form(ctx, route, right - wide - FORM_PX, middle, inks);
  }
}
