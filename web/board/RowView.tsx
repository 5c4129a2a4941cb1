import { RIGHT_EDGE_PX, RIGHT_PAD_PX, type RightLayout } from "./right-column.ts";
import type { BoardRow } from "./rows.ts";
import type { BoardPicture } from "./to-board.ts";
import { Vessel } from "./Vessel.tsx";

/** Height of a line of a reason, px. */
const REASON_LINE_PX = 17;

interface RowViewProps {
  readonly row: BoardRow;
  readonly picture: BoardPicture;
  readonly right: RightLayout;
  /** The forecast is old: its numbers carry a question mark. */
  readonly doubted?: boolean;
}

/** On a tall row under the day, the hour and what is done: its mark and its worth. */
export function isFourLines({ mark, worth }: Pick<BoardRow, "mark" | "worth">): boolean {
  return mark !== "" || worth !== "";
}

function Labels({ row, picture, right }: RowViewProps) {
  const { narrow, scale, rowPx } = picture;
  const middle = (row.y0 + row.y1) / 2;
  if (narrow) {
    const [dayY, hourY, doneY] = isFourLines(row) ? [14, 28, 42] : [19, 36, 54];
    return (
      <g class="row-labels">
        {row.chosen && (
          <rect class="hour-block" x={1.5} y={row.y0 + 1.5} width={scale.x0 - 4} height={rowPx - 3} rx={4} />
        )}
        <g class={row.chosen ? "on-black" : ""}>
          <text class="row-day" x={7} y={row.y0 + dayY}>
            {row.label}
          </text>
          <text class="row-hour" x={7} y={row.y0 + hourY}>
            {row.hour}
          </text>
          <text class="row-done" x={7} y={row.y0 + doneY}>
            {row.doneShort}
          </text>
          {isFourLines(row) && (
            <text class="row-done" x={7} y={row.y0 + 56}>
              {row.mark !== "" && <tspan class="row-best">{row.mark}</tspan>}
              {row.mark === "" ? row.worth : ` ${row.worth}`}
            </text>
          )}
        </g>
      </g>
    );
  }
  const hourX = scale.x0 - 10;
  const doneX = scale.x1 + RIGHT_PAD_PX;
  const stacked = right !== "line";
  const after = right === "after";
  const doneBy = after ? [row.doneBy, row.worth].filter((text) => text !== "").join(", ") : row.doneBy;
  return (
    <g class="row-labels">
      <text class="row-day" x={12} y={row.mark !== "" ? middle - 3 : middle + 5}>
        {row.label}
      </text>
      {row.mark !== "" && (
        <text class="row-best" x={12} y={middle + 14}>
          {row.mark}
        </text>
      )}
      {row.chosen && (
        <rect
          class="hour-block"
          x={scale.x0 - picture.hourPx - 6}
          y={row.y0 + 5}
          width={picture.hourPx}
          height={rowPx - 10}
          rx={4}
        />
      )}
      <text class={row.chosen ? "row-hour on-black" : "row-hour"} x={hourX} y={middle + 5} text-anchor="end">
        {row.hour}
      </text>
      <text class="row-done" x={doneX} y={stacked && row.doneBy !== "" ? middle - 3 : middle + 5}>
        <tspan class={row.best ? "done-route strong" : "done-route"}>{row.doneRoute}</tspan>
        {row.doneBy !== "" &&
          (stacked ? (
            <tspan x={doneX} y={middle + 14}>
              {doneBy}
            </tspan>
          ) : (
            <tspan>, {doneBy}</tspan>
          ))}
      </text>
      {after ? null : (
        <text
          class={row.best ? "row-done done-route strong" : "row-done"}
          x={picture.widthPx - RIGHT_EDGE_PX}
          y={middle + 5}
          text-anchor="end"
        >
          {row.worth}
        </text>
      )}
    </g>
  );
}

/** One cut option along the calendar: cut mark, ribbon, windows, or the reason why there is none. */
export function RowView({ row, picture, right, doubted = false }: RowViewProps) {
  const { scale, rowPx, narrow } = picture;
  const gradient = `ribbon-${row.optionId.replace(/[^a-z0-9]/gi, "-")}`;
  const { ribbon, cutX, reason } = row;
  const frameClass = `row-frame${row.best ? " best-frame" : ""}${row.chosen ? " chosen-frame" : ""}`;
  return (
    <g class={`board-row kind-${row.kind}${row.best ? " best" : ""}${row.chosen ? " chosen" : ""}`}>
      <rect class={frameClass} x={1.5} y={row.y0 + 1.5} width={row.x1 - 3} height={rowPx - 3} rx={4} />
      {row.shades.map(({ level, x0, x1 }) => (
        <rect
          key={`${level} ${x0} ${x1}`}
          class="hazard-shade"
          x={x0}
          y={row.y0 + 1}
          width={Math.max(3, x1 - x0)}
          height={rowPx - 2}
          fill={`url(#board-${level})`}
        />
      ))}
      <Labels row={row} picture={picture} right={right} />
      {ribbon && (
        <g class="ribbon">
          <linearGradient
            id={gradient}
            gradientUnits="userSpaceOnUse"
            x1={ribbon.x0}
            x2={ribbon.x1}
            y1={0}
            y2={0}
          >
            {ribbon.stops.map(({ x, colour }) => (
              <stop key={x} offset={(x - ribbon.x0) / (ribbon.x1 - ribbon.x0)} stop-color={colour} />
            ))}
          </linearGradient>
          <path d={ribbon.area} fill={`url(#${gradient})`} />
          <path class="ribbon-edge" d={ribbon.edge} />
        </g>
      )}
      {cutX !== null && <path class="cut-mark" d={`M${cutX} ${row.y1 - 3}V${row.y0 + 6}m-6 0h12l-6 8z`} />}
      {reason && (
        <text class="row-reason" text-anchor={reason.anchor}>
          {reason.lines.map((line, i) => (
            <tspan
              key={line}
              x={reason.x}
              y={
                row.y0 + (narrow ? 40 - REASON_LINE_PX * (reason.lines.length / 2) : 22) + i * REASON_LINE_PX
              }
            >
              {line}
            </tspan>
          ))}
        </text>
      )}
      {row.arrow !== "" && (
        <text class="row-arrow" x={scale.x1 - 4} y={row.y0 + 20} text-anchor="end">
          {row.arrow}
        </text>
      )}
      {row.vessels.map((vessel) => (
        <Vessel
          key={vessel.key}
          route={vessel.route}
          box={vessel}
          chance={vessel.chance}
          rainedOn={vessel.rainedOn}
          labelled={vessel.labelled}
          heavy={vessel.chosen}
          doubled={vessel.best}
          doubted={doubted}
        />
      ))}
    </g>
  );
}
