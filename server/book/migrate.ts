import { type Migration, Migrator } from "kysely";
import type { Engine } from "./engine.ts";
import { BookFailure } from "./failure.ts";
import { bookMigrations } from "./tables.ts";

const NAMES = { migrationTableName: "book_migrations", migrationLockTableName: "book_migrations_lock" };

/** The migrations that the database has had, by name; none where it is new. */
async function ran({ db }: Engine): Promise<string[]> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some(({ name }) => name === NAMES.migrationTableName)) return [];
  const rows = await db
    .withTables<{ book_migrations: { name: string } }>()
    .selectFrom("book_migrations")
    .select("name")
    .execute();
  return rows.map(({ name }) => name);
}

/**
 * Brings the database to this program's schema: first a backup, then each missing migration in its transaction.
 *
 * @param migrations others in a test
 * @returns the backup's path, or null where none was needed
 * @throws BookFailure where a newer program wrote the book
 */
export async function migrateBook(
  engine: Engine,
  migrations: Record<string, Migration> = bookMigrations(engine.name),
): Promise<string | null> {
  const before = await ran(engine);
  const stranger = before.find((name) => !Object.hasOwn(migrations, name));
  if (stranger !== undefined) {
    const message = `the book at ${engine.place} was written by a newer Swathclock (it has "${stranger}"): start that one, or use another book. Nothing was changed`;
    throw new BookFailure(503, "book-newer", message);
  }
  const missing = Object.keys(migrations)
    .filter((name) => !before.includes(name))
    .sort();
  const next = missing[0];
  if (next === undefined) return null;
  const kept = before.length > 0 && !engine.readOnly ? await engine.backup(next) : null;
  const migrator = new Migrator({
    db: engine.db,
    provider: { getMigrations: async () => migrations },
    ...NAMES,
  });
  const { error } = await migrator.migrateToLatest();
  if (error !== undefined) throw error;
  return kept;
}
