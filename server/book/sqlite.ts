import {
  accessSync,
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  statSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  Kysely,
  SqliteAdapter,
  SqliteDriver,
  SqliteIntrospector,
  SqliteQueryCompiler,
  sql,
  type TransactionSettings,
} from "kysely";
import Database from "libsql";
import { backupName, freePath } from "./backup-name.ts";
import type { Engine, Snapshot } from "./engine.ts";
import type { BookTables } from "./tables.ts";

/** How long a writer waits for another program's write, ms. */
const BUSY_MS = 5000;

class Driver extends SqliteDriver {
  readonly #database: Database.Database;

  constructor(database: Database.Database) {
    super({ database: database as unknown as ConstructorParameters<typeof SqliteDriver>[0]["database"] });
    this.#database = database;
  }

  /**
   * A writer takes its place at once: one that began as a reader would be refused without waiting when another program
   * wrote meanwhile.
   */
  override async beginTransaction(
    connection: DatabaseConnection,
    settings?: TransactionSettings,
  ): Promise<void> {
    const begin = settings?.accessMode === "read only" ? "begin" : "begin immediate";
    await connection.executeQuery(CompiledQuery.raw(begin));
  }

  /** A full disk or a closing ends the transaction by itself; rolling back once more would hide why. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    const running = this.#database.open && this.#database.inTransaction;
    if (running) await connection.executeQuery(CompiledQuery.raw("rollback"));
  }
}

/** A migration is a transaction: it happens whole, and another program that starts at the same time waits for it. */
class Adapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

function dialectOf(database: Database.Database): Dialect {
  return {
    createAdapter: () => new Adapter(),
    createDriver: () => new Driver(database),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  };
}

/**
 * Whether the file can be opened for writing, and its folder take the log beside it. Asked before the database is
 * opened: closing a file that this process has open as a database would let go of its locks.
 */
function writable(file: string): boolean {
  try {
    closeSync(openSync(file, "r+"));
    accessSync(dirname(file), constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** Node's own way of making the folders above one does not end where a system refuses them with "not found". */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  makeFolder(dirname(folder));
  mkdirSync(folder, { mode: 0o700 });
}

/** The file with its log in a folder of one's own: what is protected can neither be locked nor recovered in place. */
function copyOf(file: string): { readonly file: string; readonly drop: () => void } {
  const folder = mkdtempSync(join(tmpdir(), "swathclock-book-"));
  const drop = () => rmSync(folder, { recursive: true, force: true });
  const copy = join(folder, basename(file));
  try {
    for (const end of ["", "-wal"]) {
      // An empty log, as a closed book leaves it, may be another user's: there is nothing in it.
      if (!existsSync(`${file}${end}`) || statSync(`${file}${end}`).size === 0) continue;
      copyFileSync(`${file}${end}`, `${copy}${end}`);
      chmodSync(`${copy}${end}`, 0o600);
    }
  } catch (error) {
    drop();
    throw error;
  }
  return { file: copy, drop };
}

export interface SqliteOptions {
  /** Most pages of the file: as a disk that is full at that size. */
  readonly maxPages?: number | undefined;
  readonly nowMs: () => number;
}

/**
 * The book in one file, made with its folder where it is not there. A write is acknowledged once it is on the disk.
 *
 * @throws what the file system or SQLite says where it cannot be opened
 */
export function openSqlite(file: string, { maxPages, nowMs }: SqliteOptions): Engine {
  const folder = dirname(file);
  makeFolder(folder);
  const readOnly = existsSync(file) && !writable(file);
  const copy = readOnly ? copyOf(file) : null;
  const fresh = !existsSync(file);
  const database = new Database(copy?.file ?? file);
  if (fresh) chmodSync(file, 0o600);
  database.pragma(`busy_timeout=${BUSY_MS}`);
  database.pragma("journal_mode=WAL");
  database.pragma("synchronous=FULL");
  database.pragma("foreign_keys=ON");
  if (maxPages !== undefined) database.pragma(`max_page_count=${maxPages}`);
  const db = new Kysely<BookTables>({ dialect: dialectOf(database) });
  const moments = new Set<Snapshot>();
  /** On a connection of its own, so that a reader who takes long holds up nobody. */
  const snapshot = async (): Promise<Snapshot> => {
    const reading = new Database(copy?.file ?? file);
    reading.pragma(`busy_timeout=${BUSY_MS}`);
    const own = new Kysely<BookTables>({ dialect: dialectOf(reading) });
    const moment: Snapshot = {
      db: own,
      end: async () => {
        if (!moments.delete(moment)) return;
        // A connection that is closed lingers until its last statement is forgotten: the moment ends here.
        if (reading.inTransaction) reading.exec("rollback");
        await own.destroy();
      },
    };
    moments.add(moment);
    // The moment is that of the first look.
    reading.exec("begin");
    await sql`select 1 from entries limit 1`.execute(own);
    return moment;
  };
  return {
    name: "sqlite",
    db,
    readOnly,
    place: file,
    snapshot,
    backup: async (why) => {
      const path = freePath(join(folder, backupName(basename(file), why, nowMs())));
      // Made first and empty: a copy of the book is its owner's from its first byte.
      closeSync(openSync(path, "wx", 0o600));
      try {
        database.prepare("vacuum into ?").run([path]);
      } catch (error) {
        rmSync(path, { force: true });
        throw error;
      }
      return path;
    },
    close: async () => {
      for (const { end } of moments) await end();
      // The log goes into the file, so that the file alone is the book. Where that fails the log stays, and nothing is lost.
      if (database.open) await sql`pragma wal_checkpoint(truncate)`.execute(db).catch(() => {});
      await db.destroy();
      copy?.drop();
    },
  };
}
