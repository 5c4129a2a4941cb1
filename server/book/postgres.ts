import { mkdir, open, rm } from "node:fs/promises";
import { join, parse } from "node:path";
import { Kysely, PostgresDialect } from "kysely";
import { backupName, freePath } from "./backup-name.ts";
import { documentParts, MAX_DOCUMENT_BYTES } from "./document.ts";
import { type Engine, ofOneMoment, type Snapshot } from "./engine.ts";
import type { BookTables } from "./tables.ts";

export interface PostgresOptions {
  /** Folder of the backups. */
  readonly folder: string;
  readonly nowMs: () => number;
  /** Most bytes of one file of a backup: it must be read again. */
  readonly partBytes?: number | undefined;
}

/** The address without who and with what password. */
function placeOf(url: string): string {
  if (!URL.canParse(url)) return "PostgreSQL";
  const { host, pathname } = new URL(url);
  return `postgres://${host}${pathname}`;
}

/**
 * Writes a backup, one file or several that are taken in one after the other, a piece at a time.
 *
 * @returns the first file's path, with the number of files where there are more
 */
async function writeBackup(
  engine: Pick<Engine, "snapshot">,
  first: string,
  nowMs: number,
  partBytes: number,
): Promise<string> {
  const { dir, name, ext } = parse(first);
  const paths: string[] = [];
  let file: Awaited<ReturnType<typeof open>> | null = null;
  try {
    for await (const { part, text } of ofOneMoment(engine, (db) => documentParts(db, nowMs, partBytes))) {
      if (part > paths.length) {
        await file?.sync();
        await file?.close();
        const path = part === 1 ? first : join(dir, `${name}.part${part}${ext}`);
        file = await open(path, "wx", 0o600);
        paths.push(path);
      }
      await file?.appendFile(text);
    }
    await file?.sync();
    await file?.close();
  } catch (error) {
    await file?.close().catch(() => {});
    // Half a backup looks like one.
    for (const path of paths) await rm(path, { force: true });
    throw error;
  }
  return paths.length === 1 ? first : `${first} (${paths.length} files)`;
}

/** The book in a PostgreSQL database. The driver is loaded only where one is used. */
export async function openPostgres(
  url: string,
  { folder, nowMs, partBytes = MAX_DOCUMENT_BYTES }: PostgresOptions,
): Promise<Engine> {
  const { Pool } = (await import("pg")).default;
  const pool = new Pool({ connectionString: url, max: 8, connectionTimeoutMillis: 5000 });
  // A connection that is lost while it idles is opened anew with the next question.
  pool.on("error", () => {});
  // Nor does one that is lost between two questions of a transaction end the program: the next question fails.
  pool.on("connect", (client) => client.on("error", () => {}));
  const db = new Kysely<BookTables>({ dialect: new PostgresDialect({ pool }) });
  const moments = new Set<Snapshot>();
  const snapshot = async (): Promise<Snapshot> => {
    const reading = await db
      .startTransaction()
      .setIsolationLevel("repeatable read")
      .setAccessMode("read only")
      .execute();
    const moment: Snapshot = {
      db: reading,
      end: async () => {
        if (!moments.delete(moment)) return;
        await reading
          .rollback()
          .execute()
          .catch(() => {});
      },
    };
    moments.add(moment);
    return moment;
  };
  return {
    name: "postgresql",
    db,
    readOnly: false,
    place: placeOf(url),
    snapshot,
    backup: async (why) => {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      const path = freePath(join(folder, backupName("book.json", why, nowMs())));
      return writeBackup({ snapshot }, path, nowMs(), partBytes);
    },
    close: async () => {
      // The pool ends once every connection is given back: a reader who takes long is not waited for.
      for (const { end } of moments) await end();
      await db.destroy();
    },
  };
}
