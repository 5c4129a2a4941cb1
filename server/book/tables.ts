import { type Kysely, type Migration, sql } from "kysely";

/**
 * One row an entry, whatever its kind. What the book is asked by stands in columns with indexes; the document, checked
 * by the schema of its kind, stands in `doc`, and its keys that are too heavy for a list in `bulk`.
 */
export interface EntryRow {
  kind: string;
  id: string;
  revision: number;
  created_utc: string;
  changed_utc: string;
  /** 0 or 1. */
  deleted: number;
  /** The entry's own moment, else that of its making; ISO 8601 with milliseconds, so that text sorts as time. */
  at_utc: string;
  site_id: string | null;
  field_id: string | null;
  cut_id: string | null;
  lot_id: string | null;
  /** Of the document as it was made: tells a retry from a stranger under the same id. */
  created_hash: string;
  doc: string;
  bulk: string | null;
}

export interface BookTables {
  entries: EntryRow;
}

export type EngineName = "sqlite" | "postgresql";

/** Text is compared byte by byte on both engines, so that both sort and page alike. */
function textType(engine: EngineName) {
  return engine === "postgresql" ? sql`text collate "C"` : sql`text`;
}

/** In order of their names; each runs once, in a transaction, on both engines. Never change one that was released. */
export function bookMigrations(engine: EngineName): Record<string, Migration> {
  const text = textType(engine);
  return {
    "0001-entries": {
      async up(db: Kysely<unknown>) {
        await db.schema
          .createTable("entries")
          .addColumn("kind", text, (column) => column.notNull())
          .addColumn("id", text, (column) => column.notNull())
          .addColumn("revision", "integer", (column) => column.notNull())
          .addColumn("created_utc", text, (column) => column.notNull())
          .addColumn("changed_utc", text, (column) => column.notNull())
          .addColumn("deleted", "integer", (column) => column.notNull())
          .addColumn("at_utc", text, (column) => column.notNull())
          .addColumn("site_id", text)
          .addColumn("field_id", text)
          .addColumn("cut_id", text)
          .addColumn("lot_id", text)
          .addColumn("created_hash", text, (column) => column.notNull())
          .addColumn("doc", text, (column) => column.notNull())
          .addColumn("bulk", text)
          .addPrimaryKeyConstraint("entries_key", ["kind", "id"])
          .execute();
        await db.schema
          .createIndex("entries_by_time")
          .on("entries")
          .columns(["kind", "at_utc", "id"])
          .execute();
        for (const column of ["site_id", "field_id", "cut_id", "lot_id"]) {
          await db.schema
            .createIndex(`entries_by_${column}`)
            .on("entries")
            .columns([column, "kind", "at_utc", "id"])
            .execute();
        }
      },
    },
  };
}
