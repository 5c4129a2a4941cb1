import { useEffect, useRef, useState } from "preact/hooks";
import type { BookDocs, Entry } from "../../model/book/kinds.ts";
import { fetchJson } from "../book/book-data.ts";
import type { Change } from "../book/queue.ts";
import { theOutbox } from "../book/the-outbox.ts";

const KIND = "crew-plans";
type PlanDoc = BookDocs[typeof KIND];
type PlanEntry = Entry<typeof KIND>;

export interface PlanInBook {
  /** As the server holds it; the calendar's SEQUENCE rises with it. Null while that is not known. */
  readonly entry: Pick<PlanEntry, "id" | "revision"> | null;
  /** What is not on the server yet; null = nothing waits. */
  readonly waiting: "unsent" | "conflict" | "refused" | null;
  readonly keep: (doc: PlanDoc) => void;
}

function waitingOf(change: Change | undefined): PlanInBook["waiting"] {
  if (change === undefined) return null;
  if (change.held === null) return "unsent";
  return change.held.kind === "conflict" ? "conflict" : "refused";
}

/**
 * The plan's place in the book, through the page's outbox: without a network it waits there.
 *
 * @param inBook whether this device has put it there; only then is it looked for
 */
export function usePlanInBook(planId: string, inBook: boolean): PlanInBook {
  const [entry, setEntry] = useState<PlanEntry | null>(null);
  const [waiting, setWaiting] = useState<PlanInBook["waiting"]>(null);
  // Another plan came while one was on its way: the last is sent once that has arrived.
  const next = useRef<PlanDoc | null>(null);
  const known = useRef<PlanEntry | null>(null);
  const note = (found: PlanEntry | null) => {
    known.current = found;
    setEntry(found);
  };
  useEffect(() => {
    note(null);
    setWaiting(null);
    next.current = null;
    if (!inBook) return;
    let gone = false;
    const outbox = theOutbox();
    const mine = (change: Change) => change.kind === KIND && change.id === planId;
    const look = () => setWaiting(waitingOf(outbox.state().queue.find(mine)));
    const stop = outbox.listen((_, taken) => {
      look();
      if (taken?.kind !== KIND || taken.entry.id !== planId) return;
      note(taken.entry as PlanEntry);
      const doc = next.current;
      next.current = null;
      if (doc !== null) void outbox.change(KIND, taken.entry as PlanEntry, doc);
    });
    fetchJson<{ entries: readonly PlanEntry[] }>(`api/book/${KIND}?limit=500`).then((got) => {
      if (gone || !got.ok || known.current !== null) return;
      note(got.value.entries.find(({ id }) => id === planId) ?? null);
    });
    look();
    return () => {
      gone = true;
      stop();
    };
  }, [planId, inBook]);
  const keep = (doc: PlanDoc) => {
    const outbox = theOutbox();
    if (outbox.state().queue.some(({ kind, id }) => kind === KIND && id === planId)) next.current = doc;
    else if (known.current !== null) void outbox.change(KIND, known.current, doc);
    else void outbox.make(KIND, doc, planId);
  };
  return { entry, waiting, keep };
}
