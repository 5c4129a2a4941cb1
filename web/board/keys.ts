import { type Arrow, moveFocus } from "./move-focus.ts";

const ARROWS: Readonly<Record<string, Arrow>> = {
  ArrowUp: "up",
  ArrowDown: "down",
  ArrowLeft: "left",
  ArrowRight: "right",
  Home: "first",
  End: "last",
};

/**
 * Keys on anything of the board that has the focus: arrows move it, T opens the table, Escape goes from a window to its row
 * and from a row on to what follows the board. Enter is the button's own.
 */
export function keysOf(onStop: (stopId: string) => void, onTable: () => void, onLeave: () => void) {
  return (event: KeyboardEvent) => {
    const { target, key } = event;
    const at = target instanceof Element ? target.closest("button") : null;
    if (at === null) return;
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (key === "Escape") {
      const row = at.parentElement?.querySelector<HTMLElement>("[data-stop]");
      if (row && row !== at) row.focus();
      else onLeave();
      return;
    }
    const arrow = ARROWS[key];
    const table = key === "t" || key === "T";
    if (arrow === undefined && !table) return;
    event.preventDefault();
    if (arrow === undefined) return onTable();
    const to = moveFocus(at, arrow);
    if (to !== null) onStop(to);
  };
}
