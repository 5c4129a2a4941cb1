import type { BookDocs, BookKind, Entry, ReferenceKey } from "../../model/book/index.ts";
import type { Outcome } from "../../model/limits.ts";
import type { DocumentEntries } from "./document.ts";

/** What a list is asked for. */
export interface ListQuestion extends Partial<Record<ReferenceKey, string | undefined>> {
  /** The entry's own moment, else that of its making: from, and before. */
  readonly fromUtc?: string | undefined;
  readonly toUtc?: string | undefined;
  readonly changedSinceUtc?: string | undefined;
  /** Tombstones too. */
  readonly deleted?: boolean | undefined;
  /** With the heavy keys. */
  readonly whole?: boolean | undefined;
  readonly newestFirst?: boolean | undefined;
  readonly limit: number;
  /** Where the page before ended. */
  readonly after?: Mark | undefined;
}

/** A place in the order of a list. */
export interface Mark {
  readonly atUtc: string;
  readonly id: string;
}

export interface Page<K extends BookKind> {
  readonly entries: readonly Entry<K>[];
  /** Where the next page begins; null at the end. */
  readonly next: Mark | null;
}

export interface BookState {
  readonly engine: string;
  readonly readOnly: boolean;
  readonly counts: Readonly<Record<BookKind, number>>;
}

/** What became of a wish to write. `stale`: the entry is not what the writer saw; it comes as it stands now. */
export type Written<K extends BookKind> =
  | { readonly kind: "made" | "same" | "changed" | "stale"; readonly entry: Entry<K> }
  | { readonly kind: "missing" }
  | { readonly kind: "invalid"; readonly issues: readonly { path: string; code: string; message: string }[] };

export type ImportMode = "add" | "replace";

/** What an import did; counts of entries. */
export interface Imported {
  readonly added: number;
  readonly same: number;
  readonly removed: number;
  readonly backup: string | null;
}

/** What can be asked of a book. */
export interface BookReader {
  readonly state: () => Promise<BookState>;
  readonly list: <K extends BookKind>(kind: K, question: ListQuestion) => Promise<Page<K>>;
  readonly one: <K extends BookKind>(kind: K, id: string) => Promise<Entry<K> | null>;
  /** Every entry of a kind without the heavy keys; those that are deleted only on asking. */
  readonly all: <K extends BookKind>(kind: K, tombstonesToo?: boolean) => Promise<readonly Entry<K>[]>;
  /** The whole book as its JSON document, as of one moment, piece by piece. */
  readonly document: () => AsyncIterable<string>;
}

/** A document as the present one becomes it; the issues where it must not. */
export type Change<K extends BookKind> = (present: BookDocs[K]) => Outcome<BookDocs[K]>;

/** A book that can be written. */
export interface Book extends BookReader {
  readonly make: <K extends BookKind>(kind: K, id: string, doc: BookDocs[K]) => Promise<Written<K>>;
  /** Where the entry still has that revision. */
  readonly change: <K extends BookKind>(
    kind: K,
    id: string,
    revision: number,
    change: Change<K>,
  ) => Promise<Written<K>>;
  readonly remove: <K extends BookKind>(kind: K, id: string, revision: number) => Promise<Written<K>>;
  /** Keeps what a crew plan's file was counted as; the entry's revision stays. */
  readonly noteSent: (
    id: string,
    revision: number,
    sent: NonNullable<BookDocs["crew-plans"]["sent"]>,
  ) => Promise<void>;
  readonly takeIn: (entries: DocumentEntries, mode: ImportMode) => Promise<Outcome<Imported>>;
  readonly close: () => Promise<void>;
}
