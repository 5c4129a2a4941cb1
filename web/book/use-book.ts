import { useCallback, useEffect, useMemo, useState } from "preact/hooks";
import type { BookDocs, Entry } from "../../model/book/kinds.ts";
import { bearingsOf } from "../../model/book/references.ts";
import {
  type BookTrouble,
  type Entries,
  fetchEntries,
  forgetEntries,
  keepEntries,
  keptEntries,
  NO_ENTRIES,
  SHOWN_KINDS,
  type ShownKind,
  withEntry,
} from "./book-data.ts";
import type { Session } from "./holder.ts";
import { isKeyNeeded, onKey } from "./key-needed.ts";
import type { OutboxState } from "./outbox.ts";
import { type ShownEntry, withWaiting } from "./queue.ts";
import { fetchSession, isSigningOut, SIGNED_OUT } from "./session.ts";
import { theOutbox } from "./the-outbox.ts";

export type ShownBook = { readonly [K in ShownKind]: readonly ShownEntry<K>[] };

export interface BookOnPage {
  /** With the changes that wait. */
  readonly entries: ShownBook;
  readonly outbox: OutboxState;
  readonly session: Session | null;
  /** The book was read, from the server or from the device. */
  readonly ready: boolean;
  readonly trouble: BookTrouble | null;
  /** Rises with each look at the server's book. */
  readonly seen: number;
  readonly reload: () => Promise<void>;
  readonly signedOut: () => Promise<void>;
  readonly save: <K extends ShownKind>(kind: K, opened: Entry<K> | null, doc: BookDocs[K]) => Promise<string>;
  readonly remove: <K extends ShownKind>(kind: K, entry: Entry<K>) => Promise<void>;
}

/** Work by its time, the newest first; what has a name by it. */
function inOrder(kind: ShownKind, entries: readonly ShownEntry[]): readonly ShownEntry[] {
  const time = ({ doc }: ShownEntry) => bearingsOf(kind, doc as never).atUtc;
  const name = ({ doc }: ShownEntry) => ("name" in doc ? doc.name : "");
  return [...entries].sort((a, b) => {
    const [atA, atB] = [time(a), time(b)];
    if (atA !== null && atB !== null) return Date.parse(atB) - Date.parse(atA);
    return name(a).localeCompare(name(b));
  });
}

export function shownBook(entries: Entries, queue: OutboxState["queue"]): ShownBook {
  const lists = SHOWN_KINDS.map((kind) => [
    kind,
    inOrder(kind, withWaiting(kind, entries[kind] as readonly Entry[], queue)),
  ]);
  return Object.fromEntries(lists) as ShownBook;
}

/** The book as this page sees it, and how it is changed: each change is kept first and sent when it can be. */
export function useBook(): BookOnPage {
  const outbox = theOutbox();
  const [entries, setEntries] = useState<Entries>(NO_ENTRIES);
  const [waiting, setWaiting] = useState(outbox.state);
  const [session, setSession] = useState<Session | null>(null);
  const [trouble, setTrouble] = useState<BookTrouble | null>(null);
  const [ready, setReady] = useState(false);
  const [seen, setSeen] = useState(0);

  const reload = useCallback(async () => {
    // First who asks: a sign-out that waits is told to the server before anything is read with its key.
    const who = await fetchSession();
    if (who.ok) setSession(who.value);
    await outbox.load();
    if (isSigningOut()) {
      setTrouble(null);
      setReady(true);
      return;
    }
    const got = await fetchEntries();
    setTrouble(got.ok ? null : got.trouble);
    if (got.ok) {
      setEntries(got.value);
      setSeen((times) => times + 1);
      void keepEntries(got.value);
    }
    setReady(true);
    void outbox.flush();
  }, []);

  useEffect(() => {
    let fresh = false;
    void keptEntries().then((kept) => {
      if (kept === null || fresh) return;
      setEntries(kept);
      setReady(true);
    });
    void reload().then(() => {
      fresh = true;
    });
    const online = () => void reload();
    addEventListener("online", online);
    const stopKey = onKey(() => {
      if (!isKeyNeeded()) void reload();
    });
    const stop = outbox.listen((state, taken) => {
      setWaiting(state);
      if (taken === null) return;
      setEntries((before) => {
        const next = withEntry(before, taken.kind, taken.entry);
        void keepEntries(next);
        return next;
      });
      setSeen((times) => times + 1);
    });
    return () => {
      stop();
      stopKey();
      removeEventListener("online", online);
    };
  }, []);

  const shown = useMemo(() => shownBook(entries, waiting.queue), [entries, waiting]);

  const save: BookOnPage["save"] = async (kind, opened, doc) => {
    if (opened === null) return outbox.make(kind, doc);
    // What was sent while its editor was open is the writer's own: the newer revision is built on, not fought.
    const now = (shown[kind] as readonly Entry<typeof kind>[]).find(({ id }) => id === opened.id);
    const same = now !== undefined && JSON.stringify(now.doc) === JSON.stringify(opened.doc);
    await outbox.change(kind, same ? now : opened, doc);
    return opened.id;
  };
  const signedOut = async () => {
    setSession(SIGNED_OUT);
    setTrouble(null);
    setEntries(NO_ENTRIES);
    await forgetEntries();
    await reload();
  };
  return {
    entries: shown,
    outbox: waiting,
    session,
    ready,
    trouble,
    seen,
    reload,
    signedOut,
    save,
    remove: (kind, entry) => outbox.remove(kind, entry),
  };
}
