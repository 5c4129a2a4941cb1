import { basename } from "node:path";
import type { SelectQueryBuilder } from "kysely";
import {
  BOOK_KINDS,
  type BookDocs,
  type BookKind,
  type Entry,
  REFERENCE_KEYS,
  type ReferenceKey,
} from "../../model/book/index.ts";
import type { Book, ListQuestion, Written } from "./book.ts";
import { documentParts } from "./document.ts";
import { type Engine, ofOneMoment } from "./engine.ts";
import { bookFailureOf, readOnlyFailure } from "./failure.ts";
import { counted, uncounted } from "./plan-sequence.ts";
import { refusals, stillNamed } from "./refusals.ts";
import { columnsOf, entryOf, hashOf, sameDoc, sortable } from "./rows.ts";
import type { BookTables, EntryRow } from "./tables.ts";
import { replacementIssues, takeIn } from "./take-in.ts";

export const COLUMN_OF_KEY = {
  siteId: "site_id",
  fieldId: "field_id",
  cutId: "cut_id",
  lotId: "lot_id",
} as const satisfies Record<ReferenceKey, keyof EntryRow>;

const LISTED = ["id", "revision", "created_utc", "changed_utc", "deleted", "doc"] as const;

type Rows<O> = SelectQueryBuilder<BookTables, "entries", O>;

function narrowed<O>(rows: Rows<O>, question: ListQuestion): Rows<O> {
  const { fromUtc, toUtc, changedSinceUtc, deleted, newestFirst, after } = question;
  let query = rows;
  for (const key of REFERENCE_KEYS) {
    const id = question[key];
    if (id !== undefined) query = query.where(COLUMN_OF_KEY[key], "=", id);
  }
  if (fromUtc !== undefined) query = query.where("at_utc", ">=", sortable(fromUtc));
  if (toUtc !== undefined) query = query.where("at_utc", "<", sortable(toUtc));
  if (changedSinceUtc !== undefined) query = query.where("changed_utc", ">=", sortable(changedSinceUtc));
  if (!deleted) query = query.where("deleted", "=", 0);
  if (after !== undefined) {
    const past = newestFirst ? "<" : ">";
    query = query.where(({ or, and, eb }) =>
      or([eb("at_utc", past, after.atUtc), and([eb("at_utc", "=", after.atUtc), eb("id", past, after.id)])]),
    );
  }
  const way = newestFirst ? "desc" : "asc";
  return query.orderBy("at_utc", way).orderBy("id", way);
}

/** The book over an opened and migrated database. */
export function storedBook(engine: Engine, nowMs: () => number): Book {
  const { db, readOnly } = engine;
  const nowUtc = () => new Date(nowMs()).toISOString();

  /** What the database says in its codes, in words. */
  const inWords = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      throw bookFailureOf(error) ?? error;
    }
  };
  const writing = async <T>(work: () => Promise<T>): Promise<T> => {
    if (readOnly) throw readOnlyFailure();
    return inWords(work);
  };

  const rowOf = (kind: BookKind, id: string): Promise<EntryRow | undefined> =>
    db.selectFrom("entries").selectAll().where("kind", "=", kind).where("id", "=", id).executeTakeFirst();

  async function make<K extends BookKind>(kind: K, id: string, doc: BookDocs[K]): Promise<Written<K>> {
    const hash = hashOf(doc);
    const known = async (): Promise<Written<K> | null> => {
      const row = await rowOf(kind, id);
      if (row === undefined) return null;
      return { kind: row.created_hash === hash ? "same" : "stale", entry: entryOf(kind, row) };
    };
    const before = await known();
    if (before !== null) return before;
    const issues = await refusals(db, { kind, doc, nowMs: nowMs() });
    if (issues.length > 0) return { kind: "invalid", issues };
    const createdUtc = nowUtc();
    const head = { id, revision: 1, created_utc: createdUtc, changed_utc: createdUtc, deleted: 0 };
    const row = {
      kind,
      ...head,
      created_hash: hash,
      ...columnsOf(kind, counted(kind, doc, null), createdUtc),
    };
    const { numInsertedOrUpdatedRows } = await db
      .insertInto("entries")
      .values(row)
      .onConflict((conflict) => conflict.columns(["kind", "id"]).doNothing())
      .executeTakeFirst();
    if (numInsertedOrUpdatedRows === 1n) return { kind: "made", entry: entryOf(kind, row) };
    // Somebody was quicker between the two.
    return (await known()) ?? { kind: "missing" };
  }

  async function put<K extends BookKind>(
    kind: K,
    present: Entry<K>,
    doc: BookDocs[K],
    deleted: boolean,
  ): Promise<Written<K>> {
    const { id, revision, createdUtc } = present;
    const changed = await db
      .updateTable("entries")
      .set({
        revision: revision + 1,
        changed_utc: nowUtc(),
        deleted: deleted ? 1 : 0,
        ...columnsOf(kind, doc, createdUtc),
      })
      .where("kind", "=", kind)
      .where("id", "=", id)
      .where("revision", "=", revision)
      .returningAll()
      .executeTakeFirst();
    if (changed !== undefined) return { kind: "changed", entry: entryOf(kind, changed) };
    const row = await rowOf(kind, id);
    return row === undefined ? { kind: "missing" } : { kind: "stale", entry: entryOf(kind, row) };
  }

  return {
    state: () =>
      inWords(async () => {
        const rows = await db
          .selectFrom("entries")
          .select(({ fn }) => ["kind", fn.countAll().as("count")])
          .where("deleted", "=", 0)
          .groupBy("kind")
          .execute();
        const counts = Object.fromEntries(BOOK_KINDS.map((kind) => [kind, 0])) as Record<BookKind, number>;
        for (const { kind, count } of rows) {
          const known = BOOK_KINDS.find((one) => one === kind);
          if (known !== undefined) counts[known] = Number(count);
        }
        return { engine: engine.name, readOnly, counts };
      }),
    list: (kind, question) =>
      inWords(async () => {
        const of = db
          .selectFrom("entries")
          .select([...LISTED, "at_utc"])
          .where("kind", "=", kind);
        const query = question.whole ? narrowed(of.select("bulk"), question) : narrowed(of, question);
        // One more than asked for tells whether there is a next page.
        const rows = await query.limit(question.limit + 1).execute();
        const shown = rows.slice(0, question.limit);
        const last = shown.at(-1);
        return {
          entries: shown.map((row) => entryOf(kind, row)),
          next: rows.length > shown.length && last ? { atUtc: last.at_utc, id: last.id } : null,
        };
      }),
    one: (kind, id) =>
      inWords(async () => {
        const row = await rowOf(kind, id);
        return row === undefined ? null : entryOf(kind, row);
      }),
    all: (kind, tombstonesToo = false) =>
      inWords(async () => {
        const all = db.selectFrom("entries").select(LISTED).where("kind", "=", kind);
        const query = tombstonesToo ? all : all.where("deleted", "=", 0);
        const rows = await query.orderBy("at_utc").orderBy("id").execute();
        return rows.map((row) => entryOf(kind, row));
      }),
    document: async function* () {
      try {
        for await (const { text } of ofOneMoment(engine, (moment) => documentParts(moment, nowMs())))
          yield text;
      } catch (error) {
        throw bookFailureOf(error) ?? error;
      }
    },
    make: (kind, id, doc) => writing(() => make(kind, id, doc)),
    change: (kind, id, revision, change) =>
      writing(async () => {
        const row = await rowOf(kind, id);
        if (row === undefined) return { kind: "missing" };
        const present = entryOf(kind, row);
        const next = change(present.doc);
        if (!next.ok) return { kind: "invalid", issues: next.issues };
        // Sent again because the answer was lost: it stands there already.
        const same = sameDoc(uncounted(kind, present.doc), uncounted(kind, next.value));
        if (!present.deleted && same) return { kind: "same", entry: present };
        if (present.revision !== revision) return { kind: "stale", entry: present };
        const issues = await refusals(db, { kind, doc: next.value, nowMs: nowMs(), before: present.doc });
        if (issues.length > 0) return { kind: "invalid", issues };
        return put(kind, present, counted(kind, next.value, present), false);
      }),
    remove: (kind, id, revision) =>
      writing(async () => {
        const row = await rowOf(kind, id);
        if (row === undefined) return { kind: "missing" };
        const present = entryOf(kind, row);
        if (present.deleted) return { kind: "same", entry: present };
        if (present.revision !== revision) return { kind: "stale", entry: present };
        const issues = await stillNamed(db, kind, id);
        if (issues.length > 0) return { kind: "invalid", issues };
        return put(kind, present, present.doc, true);
      }),
    noteSent: (id, revision, sent) =>
      writing(async () => {
        const kind = "crew-plans";
        const row = await rowOf(kind, id);
        if (row === undefined) return;
        const { doc, createdUtc } = entryOf(kind, row);
        await db
          .updateTable("entries")
          .set(columnsOf(kind, { ...doc, sent }, createdUtc))
          .where("kind", "=", kind)
          .where("id", "=", id)
          .where("revision", "=", revision)
          .execute();
      }),
    takeIn: (entries, mode) =>
      writing(async () => {
        const issues = mode === "replace" ? replacementIssues(entries) : [];
        if (issues.length > 0) return { ok: false, issues };
        const path = mode === "replace" ? await engine.backup("replacement") : null;
        const done = await takeIn(db, entries, mode);
        // Its name alone: who asks need not know the server's folders.
        const backup = path === null ? null : basename(path);
        return done.ok ? { ok: true, value: { ...done.value, backup } } : done;
      }),
    close: () => engine.close(),
  };
}
