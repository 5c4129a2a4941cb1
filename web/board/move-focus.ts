export type Arrow = "up" | "down" | "left" | "right" | "first" | "last";

/**
 * Moves the focus inside the board: between rows up and down, inside a row left and right. The rain is the row on top.
 *
 * @returns the id of the row that the focus is in now, null where it did not move
 */
export function moveFocus(from: HTMLElement, arrow: Arrow): string | null {
  const row = from.closest(".board-buttons");
  const all = row?.parentElement;
  if (!row || !all) return null;
  const rows = [...all.querySelectorAll<HTMLElement>("[data-stop]")];
  const here = row.querySelector<HTMLElement>("[data-stop]");
  if (!here) return null;
  const at = rows.indexOf(here);
  const stops = [...row.querySelectorAll<HTMLElement>("button:not(.window-choice)")];
  const place = stops.indexOf(from);
  const targets: Readonly<Record<Arrow, HTMLElement | undefined>> = {
    up: rows[at - 1],
    down: rows[at + 1],
    first: rows[0],
    last: rows[rows.length - 1],
    left: stops[place - 1],
    right: stops[place + 1],
  };
  const to = targets[arrow];
  if (!to) return null;
  to.focus();
  return to.closest(".board-buttons")?.querySelector<HTMLElement>("[data-stop]")?.dataset.stop ?? null;
}
