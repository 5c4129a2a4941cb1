import type { BoardPager } from "./to-board.ts";

interface PagerProps {
  readonly pager: BoardPager;
  readonly onFrom: (fromDay: number) => void;
}

/** Moves the days in view where the picture is too narrow for all of them; one day stays in view. */
export function Pager({ pager: { fromDay, days, allDays }, onFrom }: PagerProps) {
  const step = Math.max(1, days - 1);
  const last = allDays - days;
  return (
    <nav class="board-pager" aria-label="Days in view">
      <button type="button" disabled={fromDay === 0} onClick={() => onFrom(Math.max(0, fromDay - step))}>
        ‹ Earlier
      </button>
      <span>
        Days {fromDay + 1} to {fromDay + days} of {allDays}
      </span>
      <button type="button" disabled={fromDay >= last} onClick={() => onFrom(Math.min(last, fromDay + step))}>
        Later ›
      </button>
    </nav>
  );
}
