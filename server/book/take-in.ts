import type { Kysely, Transaction } from "kysely";
import {
  BOOK_KINDS,
  type BookDocs,
  type BookKind,
  bearingsOf,
  KIND_OF_KEY,
  REFERENCE_KEYS,
} from "../../model/book/index.ts";
import type { Issue, Outcome } from "../../model/limits.ts";
import type { Imported, ImportMode } from "./book.ts";
import type { DocumentEntries, DocumentEntry } from "./document.ts";
import { countedOver } from "./plan-sequence.ts";
import { columnsOf, entryOf, sameDoc } from "./rows.ts";
import type { BookTables, EntryRow } from "./tables.ts";

/** Rows in one statement: SQLite takes 32 766 values in one, PostgreSQL twice as many. */
const ROWS_AT_ONCE = 200;

/** Ends the transaction without a change; what is wrong goes with it. */
class Refused extends Error {
  constructor(readonly issues: readonly Issue[]) {
    super("refused");
  }
}

function rowOf<K extends BookKind>(kind: K, entry: DocumentEntry): EntryRow {
  const { id, revision, createdUtc, changedUtc, deleted, createdHash } = entry;
  return {
    kind,
    id,
    revision,
    created_utc: createdUtc,
    changed_utc: changedUtc,
    deleted: deleted ? 1 : 0,
    created_hash: createdHash,
    // The document was held to the schema of its kind before.
    ...columnsOf(kind, entry.doc as BookDocs[K], createdUtc),
  };
}

const nameOf = ({ kind, id }: Pick<EntryRow, "kind" | "id">) => `${kind}/${id}`;

/** JSON columns are the same whatever the order of their keys. */
function sameColumn(key: keyof EntryRow, a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if ((key !== "doc" && key !== "bulk") || typeof a !== "string" || typeof b !== "string") return false;
  return sameDoc(JSON.parse(a), JSON.parse(b));
}

function same(a: EntryRow, b: EntryRow): boolean {
  return (Object.keys(b) as (keyof EntryRow)[]).every((key) => sameColumn(key, a[key], b[key]));
}

/** A row that takes the place of another: the count of a crew plan never falls. */
function inPlaceOf(there: EntryRow | undefined, row: EntryRow): EntryRow {
  if (row.kind !== "crew-plans" || there === undefined) return row;
  const own = entryOf("crew-plans", row);
  const doc = countedOver(own.doc, own.revision, entryOf("crew-plans", there));
  return doc === own.doc ? row : { ...row, ...columnsOf("crew-plans", doc, row.created_utc) };
}

async function held(db: Transaction<BookTables>): Promise<Map<string, EntryRow>> {
  const rows = await db.selectFrom("entries").selectAll().execute();
  return new Map(rows.map((row) => [nameOf(row), row]));
}

/** Names that neither the document nor the book holds. */
function strangers(entries: DocumentEntries, known: ReadonlySet<string>): Issue[] {
  const issues: Issue[] = [];
  for (const kind of BOOK_KINDS) {
    for (const [i, { doc }] of entries[kind].entries()) {
      const bearings = bearingsOf(kind, doc as BookDocs[typeof kind]);
      for (const key of REFERENCE_KEYS) {
        const id = bearings[key];
        if (id === null || known.has(nameOf({ kind: KIND_OF_KEY[key], id }))) continue;
        const path = `entries.${kind}[${i}].doc.${key}`;
        const message = `${path}: got "${id}", which is among the ${KIND_OF_KEY[key]} of neither document nor book`;
        issues.push({ path, code: "unknown-reference", message });
      }
    }
  }
  return issues;
}

/** What refuses a replacement, whatever the book holds: known before anything is kept aside or changed. */
export function replacementIssues(entries: DocumentEntries): Issue[] {
  const own = BOOK_KINDS.flatMap((kind) => entries[kind].map(({ id }) => nameOf({ kind, id })));
  return strangers(entries, new Set(own));
}

/**
 * Takes a document's entries in, all or none.
 *
 * `add` keeps what is there and refuses the whole where an entry of the same id is another one; `replace` makes the
 * book what the document is, but for the count of a crew plan that went out since.
 */
export async function takeIn(
  db: Kysely<BookTables>,
  entries: DocumentEntries,
  mode: ImportMode,
): Promise<Outcome<Omit<Imported, "backup">>> {
  const rows = BOOK_KINDS.flatMap((kind) => entries[kind].map((entry) => rowOf(kind, entry)));
  try {
    const value = await db.transaction().execute(async (step) => {
      const before = await held(step);
      const kept = mode === "add" ? [...before.keys()] : [];
      const issues = strangers(entries, new Set([...kept, ...rows.map(nameOf)]));
      const others = rows.filter((row) => {
        const there = before.get(nameOf(row));
        return mode === "add" && there !== undefined && !same(there, row);
      });
      for (const row of others) {
        const path = `entries.${row.kind}`;
        const message = `${path}: "${row.id}" is in the book already and differs from the document's`;
        issues.push({ path, code: "conflict", message });
      }
      if (issues.length > 0) throw new Refused(issues);
      if (mode === "replace") await step.deleteFrom("entries").execute();
      const missing =
        mode === "add"
          ? rows.filter((row) => !before.has(nameOf(row)))
          : rows.map((row) => inPlaceOf(before.get(nameOf(row)), row));
      for (let from = 0; from < missing.length; from += ROWS_AT_ONCE) {
        await step
          .insertInto("entries")
          .values(missing.slice(from, from + ROWS_AT_ONCE))
          .execute();
      }
      return {
        added: missing.length,
        same: rows.length - missing.length,
        removed: mode === "replace" ? before.size : 0,
      };
    });
    return { ok: true, value };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, issues: error.issues };
    throw error;
  }
}
