import type { BookDocs, BookKind, Entry } from "../../model/book/kinds.ts";
import { isOwn, type Who } from "./holder.ts";
import { newId } from "./new-id.ts";
import { type Change, nextToSend, type Queue, taken, withChange, withHeld } from "./queue.ts";
import type { Sent, Wait } from "./send-change.ts";

/** Where the queue lies: each change of it is one step, whoever else changes it at the same time. */
export interface QueueStore {
  /** Changes the queue and gives it as it is then. */
  readonly change: (next: (queue: Queue) => Queue) => Promise<Queue>;
}

export interface OutboxState {
  /** One's own. */
  readonly queue: Queue;
  /** How many of others wait on this device for their key. */
  readonly others: number;
  /** Why what waits is not sent; null while nothing waits or it is on its way. */
  readonly why: Wait | null;
  /** What the server said of it. */
  readonly message: string | null;
}

export interface OutboxParts {
  readonly store: QueueStore;
  readonly send: (change: Change) => Promise<Sent>;
  readonly nowMs: () => number;
  /** Who is signed in; all changes are one's own where that is left out. */
  readonly who?: () => Who;
  /** Runs a round of sending, one at a time among all pages of the device. */
  readonly alone?: (work: () => Promise<void>) => Promise<void>;
}

export interface Outbox {
  readonly state: () => OutboxState;
  /** Reads what the device holds; the state is its own from then on. */
  readonly load: () => Promise<Queue>;
  /** Told at each change of the state, and of each entry that the server took. */
  readonly listen: (listener: (state: OutboxState, entry: Taken | null) => void) => () => void;
  readonly make: <K extends BookKind>(kind: K, doc: BookDocs[K], id?: string) => Promise<string>;
  readonly change: <K extends BookKind>(kind: K, entry: Entry<K>, doc: BookDocs[K]) => Promise<void>;
  readonly remove: <K extends BookKind>(kind: K, entry: Entry<K>) => Promise<void>;
  /** A person decided: the queue is changed, and sent again. */
  readonly decide: (next: (queue: Queue) => Queue) => Promise<void>;
  /** Sends what waits, in order, until all is sent or the network is gone. */
  readonly flush: () => Promise<void>;
}

export interface Taken {
  readonly kind: BookKind;
  readonly entry: Entry;
}

export function makeOutbox({
  store,
  send,
  nowMs,
  who = () => ({ kind: "all" }),
  alone = (work) => work(),
}: OutboxParts): Outbox {
  let state: OutboxState = { queue: [], others: 0, why: null, message: null };
  const listeners = new Set<(state: OutboxState, entry: Taken | null) => void>();
  const tell = (next: OutboxState, entry: Taken | null = null) => {
    state = next;
    for (const listener of listeners) listener(state, entry);
  };
  const update = async (next: (queue: Queue) => Queue, entry: Taken | null = null) => {
    // Another's changes stay as they are: they are neither seen, nor sent, nor decided.
    const isMine = ({ holder }: Change) => isOwn(who(), holder);
    const whole = await store.change((held) => [
      ...held.filter((change) => !isMine(change)),
      ...next(held.filter(isMine)),
    ]);
    const queue = whole.filter(isMine);
    const others = whole.length - queue.length;
    tell(
      queue.length === 0 ? { queue, others, why: null, message: null } : { ...state, queue, others },
      entry,
    );
    return queue;
  };

  const round = async () => {
    let queue = await update((held) => held);
    for (let next = nextToSend(queue); next !== null; next = nextToSend(queue)) {
      const { key, kind } = next;
      const sent = await send(next);
      if (sent.kind === "wait") {
        tell({ ...state, why: sent.why, message: sent.message });
        return;
      }
      if (sent.kind === "taken")
        queue = await update((held) => taken(held, key, sent.entry), { kind, entry: sent.entry });
      else queue = await update((held) => withHeld(held, key, sent.held));
      if (state.why !== null) tell({ ...state, why: null, message: null });
    }
  };

  let running: Promise<void> | null = null;
  let again = false;
  const flush = async (): Promise<void> => {
    if (running !== null) {
      // What came while a round was under way may have come too late for it.
      again = true;
      return running;
    }
    running = (async () => {
      do {
        again = false;
        await alone(round);
      } while (again && state.why === null);
    })();
    try {
      await running;
    } finally {
      running = null;
    }
  };

  const add = async (part: Omit<Change, "key" | "madeUtc" | "held">) => {
    const madeUtc = new Date(nowMs()).toISOString();
    const by = who();
    const holder = by.kind === "holder" ? { holder: by.name } : {};
    await update((queue) => withChange(queue, { ...part, ...holder, key: newId(), madeUtc, held: null }));
    // Kept is enough for whoever waits; the way to the server may be long.
    void flush();
  };

  return {
    state: () => state,
    load: () => update((queue) => queue),
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    make: async (kind, doc, id = newId()) => {
      await add({ kind, id, act: "make", doc, revision: null });
      return id;
    },
    change: (kind, { id, revision, doc: before }, doc) =>
      add({ kind, id, act: "change", doc, before, revision }),
    remove: (kind, { id, revision, doc }) => add({ kind, id, act: "remove", doc, revision }),
    decide: async (next) => {
      await update(next);
      void flush();
    },
    flush,
  };
}
