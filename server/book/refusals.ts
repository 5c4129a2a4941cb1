import type { Kysely } from "kysely";
import { type NamesCut, withCutIssues } from "../../model/book/check/with-cut.ts";
import {
  type BookDocs,
  type BookKind,
  bearingsOf,
  type CutDoc,
  entryIssues,
  namedBy,
} from "../../model/book/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { BookTables } from "./tables.ts";

/** What keeps an entry from being made, changed or removed, though its document is as its schema wants it. */

export interface Wish<K extends BookKind> {
  readonly kind: K;
  readonly doc: BookDocs[K];
  readonly nowMs: number;
  /** The document as it stands. */
  readonly before?: BookDocs[K];
}

/** A place stays while fields are on its clock: they would be told on another one. */
export async function stillNamed(db: Kysely<BookTables>, kind: BookKind, id: string): Promise<Issue[]> {
  if (kind !== "sites") return [];
  const { count } = await db
    .selectFrom("entries")
    .select(({ fn }) => fn.countAll().as("count"))
    .where("kind", "=", "fields")
    .where("site_id", "=", id)
    .where("deleted", "=", 0)
    .executeTakeFirstOrThrow();
  if (Number(count) === 0) return [];
  const fields = Number(count) === 1 ? "1 field is" : `${count} fields are`;
  const message = `id: ${fields} at "${id}" and on its clock: give them another place, or remove them, first`;
  return [{ path: "id", code: "in-use", message }];
}

async function holds(db: Kysely<BookTables>, kind: BookKind, id?: string): Promise<boolean> {
  const of = db.selectFrom("entries").select("id").where("kind", "=", kind).limit(1);
  return (await (id === undefined ? of : of.where("id", "=", id)).executeTakeFirst()) !== undefined;
}

/** Kinds that a farm need not keep: only where it does, what is named must be among them. */
const NEED_NOT: ReadonlySet<BookKind> = new Set(["machines", "people"]);

/** What the document names and the book has never held. A tombstone counts as held: a phone may send later. */
async function unknownReferences<K extends BookKind>(
  db: Kysely<BookTables>,
  { kind, doc, before }: Wish<K>,
): Promise<Issue[]> {
  const issues: Issue[] = [];
  const known = before === undefined ? [] : namedBy(kind, before);
  for (const { kind: named, id, path } of namedBy(kind, doc)) {
    if (known.some((one) => one.kind === named && one.id === id)) continue;
    if (await holds(db, named, id)) continue;
    if (NEED_NOT.has(named) && !(await holds(db, named))) continue;
    const message = `${path}: got "${id}", which is not among the book's ${named}: send that one first`;
    issues.push({ path: `doc.${path}`, code: "unknown-reference", message });
  }
  return issues;
}

/** A new field at a place that was removed would have a clock that nobody can set right. */
async function removedPlace<K extends BookKind>(
  db: Kysely<BookTables>,
  { kind, doc, before }: Wish<K>,
): Promise<Issue[]> {
  const siteOf = (of: BookDocs[K]) => bearingsOf(kind, of).siteId;
  const id = kind === "fields" ? siteOf(doc) : null;
  if (id === null || (before !== undefined && siteOf(before) === id)) return [];
  const row = await rowOf(db, "sites", id);
  if (row?.deleted !== 1) return [];
  const message = `siteId: got "${id}", which was removed: choose another place, or bring that one back`;
  return [{ path: "doc.siteId", code: "removed-reference", message }];
}

const rowOf = (db: Kysely<BookTables>, kind: BookKind, id: string) =>
  db
    .selectFrom("entries")
    .select(["doc", "deleted"])
    .where("kind", "=", kind)
    .where("id", "=", id)
    .executeTakeFirst();

/** What is wrong beside the cut that it names; what was wrong there before stops no other change. */
async function besideCut<K extends BookKind>(
  db: Kysely<BookTables>,
  { kind, doc, before }: Wish<K>,
): Promise<Issue[]> {
  const { cutId } = bearingsOf(kind, doc);
  const row = cutId === null ? undefined : await rowOf(db, "cuts", cutId);
  if (row === undefined) return [];
  const cut = JSON.parse(row.doc) as CutDoc;
  const there = before === undefined ? [] : withCutIssues(before as NamesCut, cut);
  return withCutIssues(doc as NamesCut, cut).filter(
    ({ message }) => !there.some((old) => old.message === message),
  );
}

/** Everything that is wrong with a document as it would stand in the book. */
export async function refusals<K extends BookKind>(db: Kysely<BookTables>, wish: Wish<K>): Promise<Issue[]> {
  const { kind, doc, nowMs, before } = wish;
  return [
    ...entryIssues(kind, doc, nowMs, before),
    ...(await unknownReferences(db, wish)),
    ...(await removedPlace(db, wish)),
    ...(await besideCut(db, wish)),
  ];
}
