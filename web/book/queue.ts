import type { BookDocs, BookKind, Entry } from "../../model/book/kinds.ts";
import { BOOK_KINDS } from "../../model/book/kinds.ts";
import { BOOK_ID } from "../../model/book/limits.ts";
import { namedBy } from "../../model/book/references.ts";
import type { Issue } from "../../model/limits.ts";
import { mergedDoc } from "./merge.ts";

/**
 * Changes of the book that have not reached the server yet, in the order in which they were made. Pure: what keeps and
 * sends them is the outbox. Each carries the id that its entry will have, so that sending it twice does nothing twice.
 */

export type AnyDoc = BookDocs[BookKind];
export type Act = "make" | "change" | "remove";

/** Why a change is not sent again by itself: a person has to look. */
export type Held =
  /** Somebody else changed the entry: here it is as it stands. */
  | { readonly kind: "conflict"; readonly entry: Entry }
  /** The server's book has no such entry: it is another book, or an older one. */
  | { readonly kind: "missing" }
  | { readonly kind: "refused"; readonly message: string; readonly issues: readonly Issue[] };

export interface Change {
  /** Tells the change from others of the same entry. */
  readonly key: string;
  readonly kind: BookKind;
  readonly id: string;
  readonly act: Act;
  /** As its writer wants it; of a removal, as its writer saw it. */
  readonly doc: AnyDoc;
  /** Of a change, the document that its writer began with: what differs is the change itself. */
  readonly before?: AnyDoc;
  /** That its writer saw; null = made here, or it follows a change that is not sent yet. */
  readonly revision: number | null;
  readonly madeUtc: string;
  /** Name of the key under which it was made; left out = nobody was signed in. */
  readonly holder?: string;
  readonly held: Held | null;
}

export type Queue = readonly Change[];

const sameEntry = (a: Pick<Change, "kind" | "id">, b: Pick<Change, "kind" | "id">) =>
  a.kind === b.kind && a.id === b.id;

/** One more change at the end. What changes an entry that is not sent yet follows whatever that becomes. */
export function withChange(queue: Queue, change: Change): Queue {
  const follows = queue.some((before) => sameEntry(before, change));
  return [...queue, follows && change.act !== "make" ? { ...change, revision: null } : change];
}

/** Whether a document names an entry. */
function names(change: Change, other: Change): boolean {
  return namedBy(change.kind, change.doc).some(({ kind, id }) => kind === other.kind && id === other.id);
}

/** The first that can be sent: not held, and after nothing that is held and that it builds on. */
export function nextToSend(queue: Queue): Change | null {
  const behind: Change[] = [];
  for (const change of queue) {
    const builds = behind.some(
      (held) => sameEntry(held, change) || (held.act === "make" && names(change, held)),
    );
    if (change.held === null && !builds) return change;
    behind.push(change);
  }
  return null;
}

/** After the server took a change: it goes, and the next of the same entry builds on what it became. */
export function taken(queue: Queue, key: string, entry: Entry): Queue {
  const done = queue.find((change) => change.key === key);
  if (done === undefined) return queue;
  // What was made here began as revision 1; where it is older by now, somebody else has changed it meanwhile.
  const revision = done.act === "make" ? 1 : entry.revision;
  let passed = false;
  return queue.flatMap((change) => {
    if (change.key === key) return [];
    if (passed || !sameEntry(change, done)) return [change];
    passed = true;
    return [change.act === "make" ? change : { ...change, revision }];
  });
}

export function withHeld(queue: Queue, key: string, held: Held): Queue {
  return queue.map((change) => (change.key === key ? { ...change, held } : change));
}

/** All changes of the entry of one of them, in order. */
export function chainOf(queue: Queue, key: string): Queue {
  const one = queue.find((change) => change.key === key);
  return one === undefined ? [] : queue.filter((change) => sameEntry(change, one));
}

/** The chain of a change brought to one change in the place of its first, or to none. */
function chainTo(queue: Queue, key: string, next: Change | null): Queue {
  const chain = new Set(chainOf(queue, key));
  let placed = false;
  return queue.flatMap((change) => {
    if (!chain.has(change)) return [change];
    if (placed || next === null) return [];
    placed = true;
    return [next];
  });
}

/** What was changed here is given up: the entry stays as the server has it. */
export const giveUp = (queue: Queue, key: string): Queue => chainTo(queue, key, null);

/**
 * What was changed here is kept, over what the server has: the last of the changes, sent against the entry as it stands
 * now, or made anew where the server has none.
 */
export function keepMine(queue: Queue, key: string): Queue {
  const chain = chainOf(queue, key);
  const [first, last] = [chain[0], chain.at(-1)];
  if (first === undefined || last === undefined) return queue;
  const held = chain.find((change) => change.held !== null)?.held ?? null;
  if (last.act === "remove" && (held?.kind === "missing" || first.act === "make")) return giveUp(queue, key);
  const asMade = { ...last, act: "make", revision: null, held: null } as const;
  if (held?.kind === "missing") return chainTo(queue, key, asMade);
  const act: Act = last.act === "remove" ? "remove" : "change";
  const base = held?.kind === "conflict" ? { before: held.entry.doc, revision: held.entry.revision } : null;
  if (base !== null) return chainTo(queue, key, { ...last, ...base, act, held: null });
  // As it was to be sent, with all that was changed since in it.
  const sent: Change = first.act === "make" ? asMade : { ...first, act, doc: last.doc, held: null };
  return chainTo(queue, key, sent);
}

/** The document there now with what was changed here put into it; null where that cannot be told. */
function merged(chain: Queue): Required<Pick<Change, "doc" | "before" | "revision">> | null {
  const [first, last] = [chain[0], chain.at(-1)];
  const held = chain.find((change) => change.held !== null)?.held;
  if (!first?.before || last?.act !== "change" || held?.kind !== "conflict" || held.entry.deleted)
    return null;
  const { doc: before, revision } = held.entry;
  const json = (doc: AnyDoc) => doc as unknown as Readonly<Record<string, unknown>>;
  const both = mergedDoc(json(first.before), json(last.doc), json(before));
  return both.ok ? { doc: both.doc as unknown as AnyDoc, before, revision } : null;
}

export const canMerge = (queue: Queue, key: string): boolean => merged(chainOf(queue, key)) !== null;

/** What was changed here goes into what somebody else changed: lists joined, and of a key that both changed, this one. */
export function keepBoth(queue: Queue, key: string): Queue {
  const chain = chainOf(queue, key);
  const both = merged(chain);
  const last = chain.at(-1);
  if (both === null || last === undefined) return queue;
  return chainTo(queue, key, { ...last, ...both, act: "change", held: null });
}

/** A change that was refused, mended: another document in its place. */
export function mended(queue: Queue, key: string, doc: AnyDoc): Queue {
  const first = chainOf(queue, key)[0];
  if (first === undefined) return queue;
  const act = first.act === "make" ? "make" : "change";
  return chainTo(queue, key, { ...first, act, doc, held: null });
}

/** An entry as it is shown: with the changes that wait. */
export interface ShownEntry<K extends BookKind = BookKind> extends Entry<K> {
  /** How many of its changes wait. */
  readonly waits: number;
}

/** The entries of a kind with the changes that wait; what is made here has revision 0 until the server has it. */
export function withWaiting<K extends BookKind>(
  kind: K,
  entries: readonly Entry<K>[],
  queue: Queue,
): ShownEntry<K>[] {
  const shown = new Map(entries.map((entry) => [entry.id, { ...entry, waits: 0 } as ShownEntry<K>]));
  for (const change of queue) {
    if (change.kind !== kind) continue;
    const before = shown.get(change.id);
    const at = { createdUtc: change.madeUtc, changedUtc: change.madeUtc };
    shown.set(change.id, {
      ...(before ?? { id: change.id, revision: 0, ...at }),
      doc: change.doc as BookDocs[K],
      deleted: change.act === "remove",
      waits: (before?.waits ?? 0) + 1,
    });
  }
  return [...shown.values()].filter(({ deleted }) => !deleted);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function readHeld(value: unknown): Held | null {
  if (!isRecord(value)) return null;
  if (value.kind === "conflict" && isRecord(value.entry) && isRecord(value.entry.doc))
    return value as unknown as Held;
  if (value.kind === "missing") return { kind: "missing" };
  const refused =
    value.kind === "refused" && typeof value.message === "string" && Array.isArray(value.issues);
  return refused ? (value as unknown as Held) : null;
}

function readChange(value: unknown): Change | null {
  if (!isRecord(value)) return null;
  const { key, kind, id, act, doc, revision, madeUtc } = value;
  const known = BOOK_KINDS.find((one) => one === kind);
  const acts: readonly Act[] = ["make", "change", "remove"];
  const how = acts.find((one) => one === act);
  if (known === undefined || how === undefined || !isRecord(doc)) return null;
  if (typeof key !== "string" || typeof id !== "string" || !BOOK_ID.test(id)) return null;
  if (typeof madeUtc !== "string" || !Number.isFinite(Date.parse(madeUtc))) return null;
  const seen = typeof revision === "number" ? revision : null;
  const held = readHeld(value.held);
  const before = isRecord(value.before) ? { before: value.before as unknown as AnyDoc } : {};
  const holder = typeof value.holder === "string" ? { holder: value.holder } : {};
  const read = {
    key,
    kind: known,
    id,
    act: how,
    doc: doc as unknown as AnyDoc,
    revision: seen,
    madeUtc,
    held,
  };
  return { ...read, ...before, ...holder };
}

/** What a device held, as far as it can be read; the rest apart, so that it can be laid aside and not lost. */
export function readQueue(value: unknown): { readonly queue: Queue; readonly unread: readonly unknown[] } {
  if (value === undefined || value === null) return { queue: [], unread: [] };
  if (!Array.isArray(value)) return { queue: [], unread: [value] };
  const read = value.map((one: unknown) => ({ one, change: readChange(one) }));
  return {
    queue: read.flatMap(({ change }) => (change === null ? [] : [change])),
    unread: read.flatMap(({ one, change }) => (change === null ? [one] : [])),
  };
}
