import { dirname } from "node:path";
import type { Book } from "./book.ts";
import type { Engine } from "./engine.ts";
import { BookFailure, openingFailureOf } from "./failure.ts";
import { migrateBook } from "./migrate.ts";
import { openPostgres } from "./postgres.ts";
import type { BookSettings } from "./settings.ts";
import { openSqlite } from "./sqlite.ts";
import { storedBook } from "./stored-book.ts";

/** A book that failed to open is tried again after this long, ms. */
const AGAIN_MS = 5000;

export interface OpenedBook {
  readonly book: Book;
  readonly place: string;
  readonly readOnly: boolean;
  /** Of the book as it was before its schema was brought up to date. */
  readonly backup: string | null;
}

async function openEngine(settings: BookSettings, nowMs: () => number): Promise<Engine> {
  const { databaseUrl, file } = settings;
  return databaseUrl === null
    ? openSqlite(file, { nowMs })
    : openPostgres(databaseUrl, { folder: dirname(file), nowMs });
}

/**
 * Opens the book and brings it up to date.
 *
 * @throws BookFailure that says why it cannot be opened
 */
export async function openBook(settings: BookSettings, nowMs: () => number): Promise<OpenedBook> {
  let engine: Engine | null = null;
  try {
    engine = await openEngine(settings, nowMs);
    const backup = await migrateBook(engine);
    const { place, readOnly } = engine;
    return { book: storedBook(engine, nowMs), place, readOnly, backup };
  } catch (error) {
    await engine?.close().catch(() => {});
    const where = settings.databaseUrl === null ? `the book at ${settings.file}` : "the book's database";
    const known = openingFailureOf(error, where);
    if (known !== null) throw known;
    const reason = error instanceof Error ? error.message : "unknown";
    throw new BookFailure(503, "book-unavailable", `${where} cannot be opened: ${reason}`, error);
  }
}

/** The book when it is first asked for; one that could not be opened is tried again, not more often than every 5 s. */
export function bookWhenAsked(settings: BookSettings, nowMs: () => number) {
  let opening: Promise<OpenedBook> | null = null;
  let failedAtMs = Number.NEGATIVE_INFINITY;
  const open = (): Promise<OpenedBook> => {
    const wait = opening !== null && nowMs() - failedAtMs >= AGAIN_MS && failedAtMs > 0;
    if (opening === null || wait) {
      failedAtMs = Number.NEGATIVE_INFINITY;
      opening = openBook(settings, nowMs);
      opening.catch(() => {
        failedAtMs = nowMs();
      });
    }
    return opening;
  };
  return {
    open,
    close: async () => {
      const opened = await opening?.catch(() => null);
      await opened?.book.close();
    },
  };
}
