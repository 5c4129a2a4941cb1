import type { Kysely } from "kysely";
import type { BookTables, EngineName } from "./tables.ts";

/** An opened database under the book. */
export interface Engine {
  readonly name: EngineName;
  readonly db: Kysely<BookTables>;
  /** True where nothing can be written: its file is protected, and reads come from a copy. */
  readonly readOnly: boolean;
  /** Where it is, for people; never with a password. */
  readonly place: string;
  /** Keeps what is there before a migration or a replacement; gives the file's path, or null where there is nothing. */
  readonly backup: (why: string) => Promise<string | null>;
  readonly close: () => Promise<void>;
}
