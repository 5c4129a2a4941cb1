/** Whether the server asks for a key: whoever meets it says so here, and the page asks for the key once. */

const EVENT = "swathclock-key";
let needed = false;

/** Status of any answer of the server. */
export function noteStatus(status: number): void {
  if (status !== 401 || needed) return;
  needed = true;
  dispatchEvent(new Event(EVENT));
}

export function noteSignedIn(): void {
  needed = false;
  dispatchEvent(new Event(EVENT));
}

export const isKeyNeeded = (): boolean => needed;

/** Told when a key is needed, and when one was given. */
export function onKey(listener: () => void): () => void {
  addEventListener(EVENT, listener);
  return () => removeEventListener(EVENT, listener);
}
