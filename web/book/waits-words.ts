import type { OutboxState } from "./outbox.ts";

/** What waits, in one line; null where nothing does. */
export function waitsWords({ queue, why, message }: OutboxState, keeps: boolean): string | null {
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
