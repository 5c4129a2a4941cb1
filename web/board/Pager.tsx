import type { BoardPager } from "./to-board.ts";
import "./pager.css";

interface PagerProps {
  readonly pager: BoardPager;
  readonly onFrom: (fromDay: number) => void;
  readonly onLarger: (larger: boolean) => void;
}

/** Where the picture is too narrow for all days at their usual width: all of them close together, or a few larger. */
export function Pager({ pager, onFrom, onLarger }: PagerProps) {
  const { fromDay, days, allDays, larger, largerDays } = pager;
  const last = allDays - days;
  const all = days === allDays;
  // One day stays in view from page to page.
  const step = Math.max(1, days - 1);
  return (
    <nav class={all ? "board-pager all" : "board-pager"} aria-label="Days in view">
      {all ? null : (
        <button type="button" disabled={fromDay === 0} onClick={() => onFrom(Math.max(0, fromDay - step))}>
          ‹ Earlier
        </button>
      )}
      <span>{all ? `All ${allDays} days` : `Days ${fromDay + 1} to ${fromDay + days} of ${allDays}`}</span>
      {all ? null : (
        <button
          type="button"
          disabled={fromDay >= last}
          onClick={() => onFrom(Math.min(last, fromDay + step))}
        >
          Later ›
        </button>
      )}
      <button type="button" class="board-larger" aria-pressed={larger} onClick={() => onLarger(!larger)}>
        {larger ? "All days" : `Larger: ${largerDays} days`}
      </button>
    </nav>
  );
}
