/** How many changes of the book wait, where the page sees it at once: its script comes only where there are some. */

export const WAITING_KEY = "swathclock-book-waits";
export const WAITING_EVENT = "book-waits";

export function markWaiting(count: number): void {
  try {
    if (count === waitingMarked()) return;
    if (count === 0) localStorage.removeItem(WAITING_KEY);
    else localStorage.setItem(WAITING_KEY, String(count));
  } catch {
    // A device that keeps nothing has nothing to find at the next visit.
  }
  dispatchEvent(new Event(WAITING_EVENT));
}

export function waitingMarked(): number {
  try {
    return Number(localStorage.getItem(WAITING_KEY) ?? 0) || 0;
  } catch {
    return 0;
  }
}
