import type { ReadingDoc } from "../../model/book/index.ts";
import type { ReadingRequest } from "../../model/drying/request.ts";
import { findField } from "./find-field.ts";
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

/**
 * Keeps a reading of the book's field of that name: at once on the device, on the server when there is a signal. Where
 * the book has no such field nothing is kept, and the caller says so.
 */
export async function keepReading({ reading, fieldName, place = "" }: ReadingToKeep): Promise<Kept> {
  const { field, entries, queue } = await findField(fieldName);
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
  await theOutbox().make("readings", doc);
  return "kept";
}
