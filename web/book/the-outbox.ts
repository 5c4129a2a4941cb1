import { get, set, update } from "idb-keyval";
import { whoNow } from "./holder.ts";
import { makeOutbox, type Outbox, type QueueStore } from "./outbox.ts";
import { type Queue, readQueue } from "./queue.ts";
import { sendChange } from "./send-change.ts";
import { finishSignOut, isSigningOut } from "./session.ts";
import { markWaiting, WAITING_KEY } from "./waiting-mark.ts";

/** The page's one outbox, kept by the device: what is in it outlives a reload and waits for any server of this address. */

const KEY = "swathclock.book-queue";
const ASIDE = "swathclock.book-queue-unread";
const LOCK = "swathclock-book-queue";
/** While something waits the server is tried this often, ms: a server that comes back tells no browser. */
const TRY_AGAIN_MS = 15_000;

/** A queue that no device keeps: it lasts as long as the page. */
function storeInPage(start: Queue): QueueStore {
  let queue = start;
  return {
    change: async (next) => {
      queue = next(queue);
      return queue;
    },
  };
}

function storeOfDevice(onLost: () => void): QueueStore {
  let inPage: QueueStore | null = null;
  let known: Queue = [];
  return {
    change: async (next) => {
      if (inPage !== null) return inPage.change(next);
      let queue: Queue = [];
      try {
        await update(KEY, (held: unknown) => {
          const read = readQueue(held);
          // What another version of the page wrote is laid aside, not lost.
          if (read.unread.length > 0) void layAside(read.unread);
          queue = next(read.queue);
          return queue;
        });
        known = queue;
        return queue;
      } catch {
        // Full, or not allowed: what was known goes on in the page.
        inPage = storeInPage(known);
        onLost();
        return inPage.change(next);
      }
    },
  };
}

async function layAside(unread: readonly unknown[]): Promise<void> {
  const held: unknown = await get(ASIDE);
  await set(ASIDE, [...(Array.isArray(held) ? held : []), ...unread]);
}

/** One page at a time sends, where the browser can tell; elsewhere two may send the same, which does nothing twice. */
const alone = (work: () => Promise<void>): Promise<void> =>
  "locks" in navigator ? navigator.locks.request(LOCK, work) : work();

let made: Outbox | null = null;
let keeps = true;

/** Whether what waits outlives the page. */
export const deviceKeeps = (): boolean => keeps;

/** Made when it is first asked for; from then on it sends whenever there may be a network. */
export function theOutbox(): Outbox {
  if (made !== null) return made;
  const store = storeOfDevice(() => {
    keeps = false;
  });
  const outbox = makeOutbox({
    store,
    // A sign-out that the server has not heard of comes first: its key sends nothing more.
    send: async (change) =>
      (await finishSignOut()) ? sendChange(change) : { kind: "wait", why: "no-signal", message: null },
    nowMs: Date.now,
    who: whoNow,
    alone,
  });
  made = outbox;
  outbox.listen(({ queue }) => markWaiting(queue.length + (isSigningOut() ? 1 : 0)));
  const flush = () => void finishSignOut().then(() => outbox.flush());
  addEventListener("online", flush);
  // Another page of this device changed what waits.
  window.addEventListener("storage", ({ key }) => {
    if (key === WAITING_KEY) void outbox.load();
  });
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) flush();
  });
  setInterval(() => {
    if (outbox.state().queue.some(({ held }) => held === null) && navigator.onLine) flush();
  }, TRY_AGAIN_MS);
  flush();
  return outbox;
}
