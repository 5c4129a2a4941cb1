import { textWidthPx } from "./reasons.ts";
import type { BoardRow } from "./rows.ts";
import type { BoardPicture } from "./to-board.ts";

/** Space between the chart and the right column, and from there to the edge, px. */
export const RIGHT_PAD_PX = 12;
export const RIGHT_EDGE_PX = 10;
/** Least air between a row's time and its worth, px. */
const AIR_PX = 12;

/**
 * How the right column holds a row's best route, when it ends and what it is worth: all in a line, the time under the
 * route with the worth beside both, or with the worth after the time.
 */
export type RightLayout = "line" | "beside" | "after";

/** The same for every row, so that the column can be run down: the first layout in which no row's words meet. */
export function rightLayout({
  widthPx,
  scale,
  rows,
}: Pick<BoardPicture, "widthPx" | "scale"> & {
  readonly rows: readonly Pick<BoardRow, "doneRoute" | "doneBy" | "worth">[];
}): RightLayout {
  const roomPx = widthPx - RIGHT_EDGE_PX - scale.x1 - RIGHT_PAD_PX;
  const roomFor = (words: (row: (typeof rows)[number]) => number) =>
    rows.every((row) => words(row) + (row.worth === "" ? 0 : AIR_PX + textWidthPx(row.worth)) <= roomPx);
  if (roomFor(({ doneRoute, doneBy }) => textWidthPx(doneBy === "" ? doneRoute : `${doneRoute}, ${doneBy}`)))
    return "line";
  if (roomFor(({ doneRoute, doneBy }) => Math.max(textWidthPx(doneRoute), textWidthPx(doneBy))))
    return "beside";
  return "after";
}
