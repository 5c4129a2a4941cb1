import type { Kysely } from "kysely";
import { BOOK_KINDS, type BookKind, HEAVY_KEYS } from "../../model/book/index.ts";
import type { BookTables, EntryRow } from "./tables.ts";

/** The whole book as one JSON document. */
export const BOOK_FORMAT = "swathclock-book";
/** Raised when an older program could not read what a newer one writes. */
export const BOOK_VERSION = 1;
/** The largest document that is read; a backup of more is written as several. */
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

/** Rows read at once; of the kinds with heavy keys few, since one of those may be as large as thousands of others. */
const ROWS_AT_ONCE = { light: 500, heavy: 4 } as const;
/** Text is handed on when so much has come together, characters. */
const PIECE = 65_536;
/** What stands around the entries of a document takes less, bytes. */
const FRAME_BYTES = 2000;

const COLUMNS = [
  "kind",
  "id",
  "revision",
  "created_utc",
  "changed_utc",
  "deleted",
  "created_hash",
  "doc",
  "bulk",
] as const;

async function* entryTexts(db: Kysely<BookTables>, kind: BookKind): AsyncGenerator<string> {
  const most = HEAVY_KEYS[kind] === undefined ? ROWS_AT_ONCE.light : ROWS_AT_ONCE.heavy;
  for (let after = ""; ; ) {
    const rows = await db
      .selectFrom("entries")
      .select(COLUMNS)
      .where("kind", "=", kind)
      .where("id", ">", after)
      .orderBy("id")
      .limit(most)
      .execute();
    yield* rows.map(entryText);
    const last = rows.at(-1);
    if (last === undefined || rows.length < most) return;
    after = last.id;
  }
}

/**
 * What is in the database as JSON, a piece at a time: one document, or several that hold at most so many bytes each and
 * are taken in one after the other. Reads only columns that every version of the schema has, so that it serves as a
 * backup before a migration too.
 *
 * @param db of one moment: a snapshot
 */
export async function* documentParts(
  db: Kysely<BookTables>,
  nowMs: number,
  mostBytes = Number.POSITIVE_INFINITY,
): AsyncGenerator<{ readonly part: number; readonly text: string }> {
  const exportedUtc = new Date(nowMs).toISOString();
  const head = `{"format":"${BOOK_FORMAT}","version":${BOOK_VERSION},"exportedUtc":"${exportedUtc}",\n"entries":{`;
  const tail = "]}}\n";
  let part = 1;
  let bytes = 0;
  let text = head;
  for (const [i, kind] of BOOK_KINDS.entries()) {
    text += `${i === 0 ? "" : "],\n"}"${kind}":[`;
    let begun = false;
    for await (const entry of entryTexts(db, kind)) {
      const size = Buffer.byteLength(entry) + 2;
      if (bytes > 0 && bytes + size > mostBytes - FRAME_BYTES) {
        yield { part, text: text + tail };
        part += 1;
        bytes = 0;
        begun = false;
        text = `${head}"${kind}":[`;
      }
      text += begun ? `,\n${entry}` : entry;
      begun = true;
      bytes += size;
      if (text.length < PIECE) continue;
      yield { part, text };
      text = "";
    }
  }
  yield { part, text: text + tail };
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
