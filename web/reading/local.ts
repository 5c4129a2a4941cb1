/** What this device keeps beside the page's address, as JSON under a key. */

/** What stands under a key; null where a device keeps nothing, or what it kept is unreadable. */
export function readLocal(key: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    return null;
  }
}

/** A device that keeps nothing is no reason to stop: then all is of this visit alone. */
export function writeLocal(key: string, value: unknown): void {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // Private windows keep nothing.
  }
}
