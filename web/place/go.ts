/** Goes to a part of the page and puts the keyboard there. */
export function go(id: string): void {
  const target = document.getElementById(id);
  const field = target?.matches("select, input")
    ? target
    : target?.querySelector<HTMLElement>("input, select");
  const shown = target && target.getClientRects().length > 0 ? target : field;
  shown?.scrollIntoView({ block: "start" });
  (field as HTMLElement | null | undefined)?.focus({ preventScroll: true });
}
