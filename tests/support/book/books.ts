import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import type { Book, BookReader } from "../../../server/book/book.ts";
import type { Engine } from "../../../server/book/engine.ts";
import { migrateBook } from "../../../server/book/migrate.ts";
import { openPostgres, type PostgresOptions } from "../../../server/book/postgres.ts";
import { openSqlite, type SqliteOptions } from "../../../server/book/sqlite.ts";
import { storedBook } from "../../../server/book/stored-book.ts";
import type { EngineName } from "../../../server/book/tables.ts";
import { newDatabase } from "./postgres.ts";

export const ENGINES: readonly EngineName[] = ["sqlite", "postgresql"];

/** A folder that goes with the test. */
export function testFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "swathclock-book-test-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A clock that a test moves: a millisecond with each look, so that no two entries are of one moment. */
export function ticking(start = "2026-07-01T12:00:00Z"): () => number {
  let ms = Date.parse(start);
  return () => {
    ms += 1;
    return ms;
  };
}

/** A new and empty database of that engine, without a table. */
export async function emptyEngine(
  name: EngineName,
  options: Partial<SqliteOptions & PostgresOptions> = {},
): Promise<Engine & { readonly folder: string; readonly again: () => Promise<Engine> }> {
  const folder = testFolder();
  const nowMs = options.nowMs ?? ticking();
  const file = join(folder, "book.sqlite");
  const url = name === "postgresql" ? await newDatabase() : null;
  const open = async () => {
    const engine =
      url === null
        ? openSqlite(file, { ...options, nowMs })
        : await openPostgres(url, { ...options, folder, nowMs });
    onTestFinished(() => engine.close().catch(() => {}));
    return engine;
  };
  return { ...(await open()), folder, again: open };
}

/** Databases that a test has done with: making one takes longer than emptying it. */
const free: string[] = [];

async function postgresBook(nowMs: () => number): Promise<Book> {
  const url = free.pop() ?? (await newDatabase());
  const engine = await openPostgres(url, { folder: testFolder(), nowMs });
  onTestFinished(async () => {
    await engine.db.deleteFrom("entries").execute();
    await engine.close();
    free.push(url);
  });
  await migrateBook(engine);
  return storedBook(engine, nowMs);
}

/** A new and empty book of that engine. */
export async function emptyBook(name: EngineName, options: Partial<SqliteOptions> = {}): Promise<Book> {
  const nowMs = options.nowMs ?? ticking();
  if (name === "postgresql") return postgresBook(nowMs);
  const engine = await emptyEngine(name, options);
  await migrateBook(engine);
  return storedBook(engine, nowMs);
}

/** A book's document in one piece. */
export async function wholeDocument(book: Pick<BookReader, "document">): Promise<string> {
  const pieces: string[] = [];
  for await (const piece of book.document()) pieces.push(piece);
  return pieces.join("");
}
