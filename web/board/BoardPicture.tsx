import { BoardGround } from "./BoardGround.tsx";
import { HazardPatterns } from "./HazardPattern.tsx";
import { RowView } from "./RowView.tsx";
import { RIGHT_PAD_PX, rightLayout } from "./right-column.ts";
import type { BoardPicture as Picture } from "./to-board.ts";

/** A line of the right column's head, px. */
const HEAD_LINE_PX = 16;

/** The drawn board; everything that can be touched lies over it as buttons. */
export function BoardPicture({
  picture,
  doubted = false,
}: {
  readonly picture: Picture;
  readonly doubted?: boolean | undefined;
}) {
  const { narrow, widthPx, heightPx, rows, choices, scale, header } = picture;
  const lowest = choices.at(-1);
  const chosen = rows.find((row) => row.chosen);
  const right = rightLayout(picture);
  const headLines = right === "after" ? ["Best route,", "ends, worth"] : ["Best route, ends, worth"];
  return (
    <svg
      class={narrow ? "board-svg narrow" : "board-svg"}
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-label={picture.sentence}
    >
      <HazardPatterns prefix="board" />
      <BoardGround picture={picture} doubted={doubted} />
      {!narrow && (
        <text class="column-head" y={header.dayY}>
          {headLines.map((line, i) => (
            <tspan key={line} x={scale.x1 + RIGHT_PAD_PX} dy={i * HEAD_LINE_PX}>
              {line}
            </tspan>
          ))}
        </text>
      )}
      {rows.map((row) => (
        <path
          key={row.optionId}
          class={row.kind === "folded" ? "row-line folded" : "row-line"}
          d={`M${row.kind === "folded" ? scale.x0 : 0} ${row.y0}H${widthPx}`}
        />
      ))}
      {chosen && lowest && (
        <rect class="choices-ground" x={0} y={chosen.y1} width={widthPx} height={lowest.y1 + 8 - chosen.y1} />
      )}
      {chosen && <path class="thread" d={`M2.5 ${chosen.y0 + 2}V${heightPx}`} />}
      {/* In their own order whichever is chosen: a browser may leave what it moves in its old style. */}
      {rows.map((row) => (
        <RowView key={row.optionId} row={row} picture={picture} right={right} doubted={doubted} />
      ))}
    </svg>
  );
}
