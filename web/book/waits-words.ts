import type { OutboxState } from "./outbox.ts";

/** "2 changes made under anna's key wait on this device until anna signs in again." */
export function leftWords(count: number, name: string): string {
  if (count === 0) return "";
  const what = count === 1 ? "1 change waits" : `${count} changes wait`;
  return `${what} on this device until ${name} signs in again.`;
}

/** Of others, without a word of what it is. */
export function othersWords(count: number): string | null {
  if (count === 0) return null;
  return `${count === 1 ? "1 change" : `${count} changes`} made under another key ${count === 1 ? "waits" : "wait"} on this device for that key.`;
}

/** What waits, in one line; null where nothing does. */
export function waitsWords(
  { queue, why, message }: Pick<OutboxState, "queue" | "why" | "message">,
  keeps: boolean,
): string | null {
  const held = queue.filter((change) => change.held !== null).length;
  const waiting = queue.length - held;
  if (queue.length === 0) return null;
  const lost = keeps ? "" : " This device keeps nothing: leave the page open until it is sent.";
  const looked = held === 0 ? "" : ` ${held} ${held === 1 ? "needs" : "need"} a look below.`;
  if (waiting === 0) return `${looked.trim()}${lost}`;
  switch (why) {
    case "sign-in":
      return `Waits for signing in (${waiting}).${looked}${lost}`;
    case "view-only":
      return `Waits for a key that may change the book (${waiting}).${looked}${lost}`;
    case "later":
      return `Waits for the server (${waiting}): ${message ?? "it will be tried again"}.${looked}${lost}`;
    case "no-signal":
      return `Waits for signal (${waiting}).${looked}${lost}`;
    case null:
      return `Being sent (${waiting}).${looked}${lost}`;
  }
}
