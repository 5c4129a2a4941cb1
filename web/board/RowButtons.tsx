import type { RouteKey } from "../../model/harvest/keys.ts";
import { type Arrow, moveFocus } from "./move-focus.ts";
import type { BoardRow } from "./rows.ts";
import type { BoardPicture } from "./to-board.ts";

interface RowButtonsProps {
  readonly row: BoardRow;
  readonly picture: BoardPicture;
  /** The one row that Tab reaches. */
  readonly stop: boolean;
  readonly onChoose: (route: RouteKey | null) => void;
  /** Says a row or a window in words below the board; null = says what is chosen again. */
  readonly onTell: (sentence: string | null) => void;
  readonly onStop: (optionId: string) => void;
  readonly onUnfold: (dayKey: string, expanded: boolean) => void;
}

const ARROWS: Readonly<Record<string, Arrow>> = {
  ArrowUp: "up",
  ArrowDown: "down",
  ArrowLeft: "left",
  ArrowRight: "right",
  Home: "first",
  End: "last",
};

const px = (n: number) => `${Math.round(n * 10) / 10}px`;

/** What can be touched on a row: the row, its windows and, on a day's first row, the other cut hours. */
export function RowButtons({ row, picture, stop, onChoose, onTell, onStop, onUnfold }: RowButtonsProps) {
  const { narrow, scale, rowPx } = picture;
  const { unfold } = row;
  const onKeyDown = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key];
    if (event.key === "Escape" && event.currentTarget instanceof HTMLElement) event.currentTarget.blur();
    if (arrow === undefined || !(event.currentTarget instanceof HTMLElement)) return;
    event.preventDefault();
    const to = moveFocus(event.currentTarget, arrow);
    if (to !== null) onStop(to);
  };
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
        onClick={() => onChoose(row.route)}
        onKeyDown={onKeyDown}
        onFocus={() => onTell(row.sentence)}
        onBlur={() => onTell(null)}
      />
      {row.vessels.map((vessel) => (
        <button
          key={vessel.key}
          type="button"
          class="vessel-button"
          style={{
            top: px(row.y0),
            left: px(vessel.x0),
            width: px(vessel.x1 - vessel.x0),
            height: px(rowPx),
          }}
          tabIndex={-1}
          aria-pressed={vessel.chosen}
          aria-label={vessel.sentence}
          title={vessel.sentence}
          data-vessel={vessel.key}
          onClick={() => onChoose(vessel.route)}
          onKeyDown={onKeyDown}
          onFocus={() => onTell(`${vessel.sentence}.`)}
          onBlur={() => onTell(null)}
        />
      ))}
      {unfold && (
        <button
          type="button"
          class={row.best && narrow ? "board-unfold on-black" : "board-unfold"}
          style={{
            top: px(narrow ? row.y0 + 9 : row.y0),
            left: px(scale.x0 - (narrow ? 50 : 104)),
            height: "44px",
          }}
          aria-expanded={unfold.expanded}
          aria-label={unfold.label}
          title={unfold.label}
          onClick={() => onUnfold(unfold.dayKey, unfold.expanded)}
        >
          {unfold.expanded ? "−" : `+${unfold.count}`}
        </button>
      )}
    </li>
  );
}
