import type { Kysely } from "kysely";
import { BOOK_KINDS, type BookKind } from "../../model/book/index.ts";
import { BookFailure } from "./failure.ts";
import type { BookTables, EntryRow } from "./tables.ts";

/** The whole book as one JSON document. */
export const BOOK_FORMAT = "swathclock-book";
/** Raised when an older program could not read what a newer one writes. */
export const BOOK_VERSION = 1;
/** The largest document that is written, and so the largest that must be read again. */
export const MAX_DOCUMENT_BYTES = 256 * 1024 * 1024;

type WrittenRow = Pick<
  EntryRow,
  "kind" | "id" | "revision" | "created_utc" | "changed_utc" | "deleted" | "created_hash" | "doc" | "bulk"
>;

/** Stored texts are JSON already: they are set in as they are. */
function entryText(row: WrittenRow): string {
  const head = JSON.stringify({
    id: row.id,
    revision: row.revision,
    createdUtc: row.created_utc,
    changedUtc: row.changed_utc,
    deleted: row.deleted === 1,
    createdHash: row.created_hash,
  }).slice(0, -1);
  const light = row.doc.slice(1, -1);
  const heavy = row.bulk?.slice(1, -1) ?? "";
  const doc = [light, heavy].filter((part) => part !== "").join(",");
  return `${head},"doc":{${doc}}}`;
}

/**
 * The document of what is in the database, as of one moment. Reads only columns that every version of the schema has,
 * so that it serves as a backup before a migration too.
 */
export async function bookDocument(db: Kysely<BookTables>, nowMs: number): Promise<string> {
  const rows = await db
    .selectFrom("entries")
    .select([
      "kind",
      "id",
      "revision",
      "created_utc",
      "changed_utc",
      "deleted",
      "created_hash",
      "doc",
      "bulk",
    ])
    .orderBy("kind")
    .orderBy("id")
    .execute();
  const ofKind = new Map<string, string[]>(BOOK_KINDS.map((kind) => [kind, []]));
  let bytes = 0;
  for (const row of rows) {
    const text = entryText(row);
    bytes += text.length;
    ofKind.get(row.kind)?.push(text);
  }
  if (bytes > MAX_DOCUMENT_BYTES) {
    const mb = MAX_DOCUMENT_BYTES / 1024 / 1024;
    throw new BookFailure(
      507,
      "too-large",
      `the book holds more than ${mb} MB: copy its database instead, or delete old uploads and forecasts`,
    );
  }
  const lists = [...ofKind].map(([kind, texts]) => `${JSON.stringify(kind)}:[${texts.join(",\n")}]`);
  const head = `"format":"${BOOK_FORMAT}","version":${BOOK_VERSION},"exportedUtc":"${new Date(nowMs).toISOString()}"`;
  return `{${head},\n"entries":{${lists.join(",\n")}}}\n`;
}

export interface DocumentEntry {
  readonly id: string;
  readonly revision: number;
  readonly createdUtc: string;
  readonly changedUtc: string;
  readonly deleted: boolean;
  readonly createdHash: string;
  readonly doc: object;
}

export type DocumentEntries = { readonly [K in BookKind]: readonly DocumentEntry[] };
