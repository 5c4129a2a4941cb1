import type { Kysely } from "kysely";
import type { BookTables, EngineName } from "./tables.ts";

/** What was in the database at one moment; it must be ended. */
export interface Snapshot {
  readonly db: Kysely<BookTables>;
  readonly end: () => Promise<void>;
}

/** An opened database under the book. */
export interface Engine {
  readonly name: EngineName;
  readonly db: Kysely<BookTables>;
  /** True where nothing can be written: its file is protected, and reads come from a copy. */
  readonly readOnly: boolean;
  /** Where it is, for people; never with a password. */
  readonly place: string;
  /** Opens what is there as of one moment, whatever is written meanwhile. */
  readonly snapshot: () => Promise<Snapshot>;
  /** Keeps what is there before a migration or a replacement; gives the file's path, or null where there is nothing. */
  readonly backup: (why: string) => Promise<string | null>;
  readonly close: () => Promise<void>;
}

/** What is read of one moment; the moment ends with the reading, or with the reader. */
export async function* ofOneMoment<T>(
  { snapshot }: Pick<Engine, "snapshot">,
  read: (db: Kysely<BookTables>) => AsyncIterable<T>,
): AsyncGenerator<T> {
  const { db, end } = await snapshot();
  try {
    yield* read(db);
  } finally {
    await end();
  }
}
