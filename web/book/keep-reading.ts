import type { ReadingDoc } from "../../model/book/index.ts";
import type { ReadingRequest } from "../../model/drying/request.ts";
import { type Entries, fetchEntries, keepEntries, keptEntries } from "./book-data.ts";
import { cutOfReading } from "./issued.ts";
import { withWaiting } from "./queue.ts";
import { theOutbox } from "./the-outbox.ts";

/** A moisture that was measured anywhere on the page, on its way into the book. */
export interface ReadingToKeep {
  readonly reading: ReadingRequest;
  /** Name of the field as it stands on the page. */
  readonly fieldName: string;
  readonly place?: string;
}

export type Kept = "kept" | "no-such-field";

async function entriesNow(): Promise<Entries | null> {
  const got = await fetchEntries();
  if (!got.ok) return null;
  await keepEntries(got.value);
  return got.value;
}

/**
 * Keeps a reading of the book's field of that name: at once on the device, on the server when there is a signal. Where
 * the book has no such field nothing is kept, and the caller says so.
 */
export async function keepReading({ reading, fieldName, place = "" }: ReadingToKeep): Promise<Kept> {
  const outbox = theOutbox();
  const queue = await outbox.load();
  const wanted = fieldName.trim().toLowerCase();
  const named = (entries: Entries | null) =>
    withWaiting("fields", entries?.fields ?? [], queue).find(
      ({ doc }) => doc.name.trim().toLowerCase() === wanted,
    );
  // The device may not have seen the book yet, or not since another added the field.
  let entries = await keptEntries();
  if (named(entries) === undefined) entries = (await entriesNow()) ?? entries;
  const field = named(entries);
  if (field === undefined) return "no-such-field";
  const { atUtc, method, moistureWb, range } = reading;
  const cutId = cutOfReading(withWaiting("cuts", entries?.cuts ?? [], queue), field.id, atUtc);
  const doc: ReadingDoc = {
    fieldId: field.id,
    ...(cutId === null ? {} : { cutId }),
    atUtc,
    method,
    ...(moistureWb === undefined ? {} : { moistureWb }),
    ...(range === undefined ? {} : { range }),
    ...(place.trim() === "" ? {} : { place: place.trim() }),
  };
  await outbox.make("readings", doc);
  return "kept";
}
