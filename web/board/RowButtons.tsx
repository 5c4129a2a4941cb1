import { placeAt } from "./place-at.ts";
import { isFourLines } from "./RowView.tsx";
import type { BoardRow } from "./rows.ts";
import { stopId } from "./stops.ts";
import type { BoardPicture } from "./to-board.ts";
import { WindowChoices } from "./WindowChoices.tsx";

const UNFOLD_PX = 44;

interface RowButtonsProps {
  readonly row: BoardRow;
  readonly picture: BoardPicture;
  /** The one row that Tab reaches. */
  readonly stop: boolean;
  /** The forecast is old: its numbers carry a question mark. */
  readonly doubted: boolean;
}

/**
 * What can be touched on a row: on a day's first row the other cut hours, the row, and its windows. The board listens for
 * all of them.
 */
export function RowButtons({ row, picture, stop, doubted }: RowButtonsProps) {
  const { narrow, scale, rowPx } = picture;
  const { unfold } = row;
  return (
    <li class="board-buttons">
      <button
        type="button"
        class="row-button"
        style={placeAt(0, row.y0, row.x1, rowPx)}
        tabIndex={stop ? 0 : -1}
        aria-pressed={row.chosen}
        aria-label={row.sentence}
        data-at={stopId.row(row.optionId)}
        data-row={row.optionId}
        data-stop={row.optionId}
      />
      {row.vessels.map((vessel) => (
        <button
          key={vessel.key}
          type="button"
          class={vessel.first ? "vessel-button" : "vessel-button later"}
          style={placeAt(vessel.touchX0, row.y0, vessel.touchX1 - vessel.touchX0, rowPx)}
          tabIndex={-1}
          aria-pressed={vessel.chosen}
          aria-label={vessel.sentence}
          data-at={stopId.vessel(row.optionId, vessel.key)}
          data-vessel={vessel.key}
        />
      ))}
      {unfold && (
        <button
          type="button"
          class={row.chosen && narrow ? "board-unfold on-black" : "board-unfold"}
          // Beside the day and the hour, above the lines of what is done and what it is worth.
          style={placeAt(
            narrow ? scale.x0 - 48 : scale.x0 - picture.hourPx - 50,
            narrow ? row.y0 + (isFourLines(row) ? 0 : 9) : row.y0,
            UNFOLD_PX,
            UNFOLD_PX,
          )}
          tabIndex={-1}
          data-at={stopId.unfold(unfold.dayKey)}
          aria-expanded={unfold.expanded}
          aria-label={unfold.label}
        >
          {unfold.expanded ? "−" : `+${unfold.count}`}
        </button>
      )}
      {row.chosen && picture.choices.length > 0 && (
        <WindowChoices choices={picture.choices} optionId={row.optionId} doubted={doubted} />
      )}
    </li>
  );
}
