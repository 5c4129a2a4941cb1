import { createHash } from "node:crypto";
import { type BookDocs, type BookKind, bearingsOf, type Entry, HEAVY_KEYS } from "../../model/book/index.ts";
import type { EntryRow } from "./tables.ts";

/** JSON with the keys of every object in order: the same document is the same text, however it was written. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === "object" && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

export function hashOf(doc: object): string {
  return createHash("sha256").update(canonicalJson(doc)).digest("hex");
}

export function sameDoc(a: object, b: object): boolean {
  return canonicalJson(a) === canonicalJson(b);
}

export type DocColumns = Pick<
  EntryRow,
  "at_utc" | "site_id" | "field_id" | "cut_id" | "lot_id" | "doc" | "bulk"
>;

/** A moment as text that sorts as time. */
export const sortable = (utc: string): string => new Date(utc).toISOString();

/** The columns that come from the document. */
export function columnsOf<K extends BookKind>(kind: K, doc: BookDocs[K], createdUtc: string): DocColumns {
  const { siteId, fieldId, cutId, lotId, atUtc } = bearingsOf(kind, doc);
  const heavy: readonly string[] = HEAVY_KEYS[kind] ?? [];
  const entries = Object.entries(doc);
  const bulk = entries.filter(([key]) => heavy.includes(key));
  return {
    at_utc: sortable(atUtc ?? createdUtc),
    site_id: siteId,
    field_id: fieldId,
    cut_id: cutId,
    lot_id: lotId,
    doc: JSON.stringify(Object.fromEntries(entries.filter(([key]) => !heavy.includes(key)))),
    bulk: bulk.length === 0 ? null : JSON.stringify(Object.fromEntries(bulk)),
  };
}

export type ListedRow = Pick<
  EntryRow,
  "id" | "revision" | "created_utc" | "changed_utc" | "deleted" | "doc"
> & { readonly bulk?: string | null };

/** A row as an entry; what was checked when it was written is not checked again. */
export function entryOf<K extends BookKind>(_kind: K, row: ListedRow): Entry<K> {
  const light: object = JSON.parse(row.doc);
  const heavy: object = row.bulk ? JSON.parse(row.bulk) : {};
  return {
    id: row.id,
    revision: row.revision,
    createdUtc: row.created_utc,
    changedUtc: row.changed_utc,
    deleted: row.deleted === 1,
    doc: { ...light, ...heavy } as BookDocs[K],
  };
}
