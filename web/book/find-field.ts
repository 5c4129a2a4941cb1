import type { Entry } from "../../model/book/kinds.ts";
import { type Entries, fetchEntries, keepEntries, keptEntries } from "./book-data.ts";
import { type Queue, withWaiting } from "./queue.ts";
import { theOutbox } from "./the-outbox.ts";

/** The book's field of a name on the page, with what the device knows of the book and what waits. */
export interface FoundField {
  readonly field: Entry<"fields"> | undefined;
  readonly entries: Entries | null;
  readonly queue: Queue;
}

/** Asked of the server only where the device knows no such field: it may not have seen the book since another added it. */
export async function findField(name: string): Promise<FoundField> {
  const queue = await theOutbox().load();
  const wanted = name.trim().toLowerCase();
  const named = (entries: Entries | null) =>
    withWaiting("fields", entries?.fields ?? [], queue).find(
      ({ doc }) => doc.name.trim().toLowerCase() === wanted,
    );
  const kept = await keptEntries();
  const known = named(kept);
  if (known !== undefined) return { field: known, entries: kept, queue };
  const got = await fetchEntries();
  if (!got.ok) return { field: undefined, entries: kept, queue };
  await keepEntries(got.value);
  return { field: named(got.value), entries: got.value, queue };
}
