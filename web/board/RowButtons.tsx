import type { RouteKey } from "../../model/harvest/keys.ts";
import type { BoardRow } from "./rows.ts";
import { type Telling, tells } from "./telling.ts";
import type { BoardPicture } from "./to-board.ts";

interface RowButtonsProps {
  readonly row: BoardRow;
  readonly picture: BoardPicture;
  /** The one row that Tab reaches. */
  readonly stop: boolean;
  readonly onChoose: (route: RouteKey | null) => void;
  /** Says a row or a window in words below the board; null = says what is chosen again. */
  readonly onTell: (telling: Telling | null) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onUnfold: (dayKey: string, expanded: boolean) => void;
  /** A focused window is looked at from its start. */
  readonly onHour: (ms: number | null) => void;
}

const px = (n: number) => `${Math.round(n * 10) / 10}px`;

/** What can be touched on a row: on a day's first row the other cut hours, the row, and its windows. */
export function RowButtons({
  row,
  picture,
  stop,
  onChoose,
  onTell,
  onKeyDown,
  onUnfold,
  onHour,
}: RowButtonsProps) {
  const { narrow, scale, rowPx } = picture;
  const { unfold } = row;
  return (
    <li class="board-buttons">
      <button
        type="button"
        class="row-button"
        style={{ top: px(row.y0), left: "0px", width: px(row.x1), height: px(rowPx) }}
        tabIndex={stop ? 0 : -1}
        aria-pressed={row.chosen}
        aria-label={row.sentence}
        data-row={row.optionId}
        data-stop={row.optionId}
        onClick={() => onChoose(row.route)}
        onKeyDown={onKeyDown}
        {...tells(row, onTell)}
      />
      {row.vessels.map((vessel) => {
        const telling: Telling = { sentence: `${vessel.sentence}.`, more: vessel.more };
        return (
          <button
            key={vessel.key}
            type="button"
            class={vessel.first ? "vessel-button" : "vessel-button later"}
            style={{
              top: px(row.y0),
              left: px(vessel.touchX0),
              width: px(vessel.touchX1 - vessel.touchX0),
              height: px(rowPx),
            }}
            tabIndex={-1}
            aria-pressed={vessel.chosen}
            aria-label={vessel.sentence}
            data-vessel={vessel.key}
            onClick={() => onChoose(vessel.route)}
            onKeyDown={onKeyDown}
            {...tells(telling, onTell)}
            onFocus={() => {
              onTell(telling);
              onHour(vessel.startMs);
            }}
          />
        );
      })}
      {unfold && (
        <button
          type="button"
          class={row.chosen && narrow ? "board-unfold on-black" : "board-unfold"}
          style={{
            // Beside the day and the hour, above the line of what is done: the best has one line more.
            top: px(narrow ? row.y0 + (row.mark === "" ? 9 : 0) : row.y0),
            left: px(narrow ? scale.x0 - 48 : scale.x0 - picture.hourPx - 50),
            height: "44px",
          }}
          tabIndex={-1}
          aria-expanded={unfold.expanded}
          aria-label={unfold.label}
          onClick={() => onUnfold(unfold.dayKey, unfold.expanded)}
          onKeyDown={onKeyDown}
          {...tells({ sentence: `${unfold.label}.`, more: [] }, onTell)}
        >
          {unfold.expanded ? "−" : `+${unfold.count}`}
        </button>
      )}
    </li>
  );
}
