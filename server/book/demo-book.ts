import {
  BOOK_KINDS,
  type BookDocs,
  type BookKind,
  bearingsOf,
  demoDocs,
  type Entry,
  REFERENCE_KEYS,
} from "../../model/book/index.ts";
import type { Book, BookReader, ListQuestion } from "./book.ts";
import { BOOK_FORMAT, BOOK_VERSION } from "./document.ts";
import { hashOf, sortable } from "./rows.ts";

/** The demonstration's book: made anew around today, never written. */

type DemoEntry<K extends BookKind> = Entry<K> & { readonly createdHash: string };

function entriesOf<K extends BookKind>(kind: K, nowUtcMs: number): DemoEntry<K>[] {
  const docs: Readonly<Record<string, BookDocs[K]>> = demoDocs(nowUtcMs)[kind] ?? {};
  const createdUtc = `${new Date(nowUtcMs).toISOString().slice(0, 10)}T00:00:00.000Z`;
  return Object.entries(docs).map(([id, doc]) => ({
    id,
    revision: 1,
    createdUtc,
    changedUtc: createdUtc,
    deleted: false,
    createdHash: hashOf(doc),
    doc,
  }));
}

const atOf = <K extends BookKind>(kind: K, { doc, createdUtc }: Entry<K>) =>
  sortable(bearingsOf(kind, doc).atUtc ?? createdUtc);

function fits<K extends BookKind>(kind: K, entry: Entry<K>, question: ListQuestion): boolean {
  const { fromUtc, toUtc, changedSinceUtc } = question;
  const bearings = bearingsOf(kind, entry.doc);
  const at = atOf(kind, entry);
  return (
    REFERENCE_KEYS.every((key) => question[key] === undefined || question[key] === bearings[key]) &&
    (fromUtc === undefined || at >= sortable(fromUtc)) &&
    (toUtc === undefined || at < sortable(toUtc)) &&
    (changedSinceUtc === undefined || entry.changedUtc >= sortable(changedSinceUtc))
  );
}

const bare = <K extends BookKind>({ createdHash: _hash, ...entry }: DemoEntry<K>): Entry<K> => entry;

export function demoBook(nowMs: () => number): BookReader {
  return {
    state: async () => ({
      engine: "demo",
      readOnly: true,
      counts: Object.fromEntries(BOOK_KINDS.map((kind) => [kind, entriesOf(kind, nowMs()).length])) as Record<
        BookKind,
        number
      >,
    }),
    list: async (kind, question) => {
      const sign = question.newestFirst ? -1 : 1;
      const order = (entry: Entry<typeof kind>) => `${atOf(kind, entry)} ${entry.id}`;
      const after = question.after && `${question.after.atUtc} ${question.after.id}`;
      const all = entriesOf(kind, nowMs())
        .filter((entry) => fits(kind, entry, question))
        .sort((a, b) => (order(a) < order(b) ? -sign : sign))
        .filter((entry) => after === undefined || (order(entry) > after ? 1 : -1) === sign);
      const shown = all.slice(0, question.limit).map(bare);
      const last = shown.at(-1);
      return {
        entries: shown,
        next: all.length > shown.length && last ? { atUtc: atOf(kind, last), id: last.id } : null,
      };
    },
    one: async (kind, id) => {
      const found = entriesOf(kind, nowMs()).find((entry) => entry.id === id);
      return found === undefined ? null : bare(found);
    },
    all: async (kind) => entriesOf(kind, nowMs()).map(bare),
    document: async function* () {
      const entries = Object.fromEntries(BOOK_KINDS.map((kind) => [kind, entriesOf(kind, nowMs())]));
      const exportedUtc = new Date(nowMs()).toISOString();
      yield JSON.stringify({ format: BOOK_FORMAT, version: BOOK_VERSION, exportedUtc, entries });
    },
  };
}

export interface Copied {
  readonly copied: number;
  /** There before, under the same id: left as they are. */
  readonly kept: number;
}

/** The demonstration's entries into one's own book, as entries of one's own. */
export async function copyDemo(book: Book, nowUtcMs: number): Promise<Copied> {
  let copied = 0;
  let kept = 0;
  const copy = async <K extends BookKind>(kind: K) => {
    for (const { id, doc } of entriesOf(kind, nowUtcMs)) {
      const { kind: done } = await book.make(kind, id, doc);
      if (done === "made") copied += 1;
      else kept += 1;
    }
  };
  for (const kind of BOOK_KINDS) await copy(kind);
  return { copied, kept };
}
