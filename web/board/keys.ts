import { type Arrow, moveFocus } from "./move-focus.ts";

const ARROWS: Readonly<Record<string, Arrow>> = {
  ArrowUp: "up",
  ArrowDown: "down",
  ArrowLeft: "left",
  ArrowRight: "right",
  Home: "first",
  End: "last",
};

/** Keys on anything of the board that has the focus: arrows move it, T opens the table, Escape leaves. Enter is the button's own. */
export function keysOf(onStop: (stopId: string) => void, onTable: () => void) {
  return (event: KeyboardEvent) => {
    const { currentTarget: at, key } = event;
    if (!(at instanceof HTMLElement)) return;
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (key === "Escape") at.blur();
    const arrow = ARROWS[key];
    const table = key === "t" || key === "T";
    if (arrow === undefined && !table) return;
    event.preventDefault();
    if (arrow === undefined) return onTable();
    const to = moveFocus(at, arrow);
    if (to !== null) onStop(to);
  };
}
