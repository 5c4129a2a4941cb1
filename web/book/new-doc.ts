import type { Inputs } from "../state/inputs.ts";
import type { ShownKind } from "./book-data.ts";
import { PLACE_SHOWN } from "./EntryForm.tsx";
import type { AnyDoc } from "./queue.ts";
import type { ShownBook } from "./use-book.ts";

const MINUTE_MS = 60_000;

interface Ground {
  readonly book: ShownBook;
  readonly inputs: Inputs;
  readonly nowMs: number;
  /** The field that the lists are of; "" = all. */
  readonly fieldId: string;
}

/** What is known of an entry before anything is typed: the field that is looked at, the hour, the usual way. */
export function newDoc(kind: ShownKind, { book, inputs, nowMs, fieldId }: Ground): Partial<AnyDoc> {
  const nowUtc = new Date(Math.floor(nowMs / MINUTE_MS) * MINUTE_MS).toISOString().replace(".000Z", "Z");
  const field =
    book.fields.find(({ id }) => id === fieldId) ?? (book.fields.length === 1 ? book.fields[0] : undefined);
  const ofField = field ? { fieldId: field.id } : {};
  const crop = field ? { crop: field.doc.crop } : {};
  switch (kind) {
    case "fields":
      return { siteId: book.sites[0]?.id ?? PLACE_SHOWN, crop: inputs.crop };
    case "cuts":
      return { ...ofField, ...crop };
    case "readings":
      return { ...ofField, atUtc: nowUtc, method: "microwave" };
    case "lots":
      return { ...ofField, ...crop, storedUtc: nowUtc };
    case "people":
      return { from: "07:00", to: "20:00" };
    default:
      return {};
  }
}
