import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Kysely, PostgresDialect } from "kysely";
import { backupName, freePath } from "./backup-name.ts";
import { bookDocument } from "./document.ts";
import type { Engine } from "./engine.ts";
import type { BookTables } from "./tables.ts";

export interface PostgresOptions {
  /** Folder of the backups. */
  readonly folder: string;
  readonly nowMs: () => number;
}

/** The address without who and with what password. */
function placeOf(url: string): string {
  if (!URL.canParse(url)) return "PostgreSQL";
  const { host, pathname } = new URL(url);
  return `postgres://${host}${pathname}`;
}

/** The book in a PostgreSQL database. The driver is loaded only where one is used. */
export async function openPostgres(url: string, { folder, nowMs }: PostgresOptions): Promise<Engine> {
  const { Pool } = (await import("pg")).default;
  const pool = new Pool({ connectionString: url, max: 8, connectionTimeoutMillis: 5000 });
  // A connection that is lost while it idles is opened anew with the next question.
  pool.on("error", () => {});
  const db = new Kysely<BookTables>({ dialect: new PostgresDialect({ pool }) });
  return {
    name: "postgresql",
    db,
    readOnly: false,
    place: placeOf(url),
    backup: async (why) => {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      const path = freePath(join(folder, backupName("book.json", why, nowMs())));
      await writeFile(path, await bookDocument(db, nowMs()), { mode: 0o600, flag: "wx" });
      return path;
    },
    close: () => db.destroy(),
  };
}
