import { z } from "@hono/zod-openapi";
import type { BookKind } from "../../../model/book/index.ts";
import { BOOK_FORMAT, BOOK_VERSION } from "../../book/document.ts";
import { listOf, record, utcTime } from "../parts.ts";
import { BOOK_SCHEMAS } from "./kinds.ts";
import { bookId } from "./parts.ts";

/** Entries of one kind in a document. */
export const MAX_ENTRIES = 200_000;

const head = {
  id: bookId,
  revision: z.int().min(1).max(2_147_483_647),
  createdUtc: utcTime,
  changedUtc: utcTime,
  deleted: z.boolean(),
  createdHash: z
    .string()
    .regex(/^[0-9a-f]{64}$/, { error: "must be 64 hexadecimal digits" })
    .openapi({ description: "Of the document as it was made: by it a retry that comes late is known" }),
};

function entriesOf(kind: BookKind) {
  return listOf(record({ ...head, doc: BOOK_SCHEMAS[kind] as z.ZodType<object> }), MAX_ENTRIES).refine(
    (entries) => new Set(entries.map(({ id }) => id)).size === entries.length,
    { message: "each entry must have an id of its own", params: { code: "not-unique" } },
  );
}

/** The whole book. A kind that was left out has no entries. */
export const bookDocumentSchema = record({
  format: z.literal(BOOK_FORMAT),
  version: z.literal(BOOK_VERSION),
  exportedUtc: utcTime,
  entries: record({
    sites: entriesOf("sites").default([]),
    fields: entriesOf("fields").default([]),
    machines: entriesOf("machines").default([]),
    people: entriesOf("people").default([]),
    prices: entriesOf("prices").default([]),
    herds: entriesOf("herds").default([]),
    uploads: entriesOf("uploads").default([]),
    cuts: entriesOf("cuts").default([]),
    lots: entriesOf("lots").default([]),
    readings: entriesOf("readings").default([]),
    forecasts: entriesOf("forecasts").default([]),
    "learned-rates": entriesOf("learned-rates").default([]),
    "crew-plans": entriesOf("crew-plans").default([]),
  }),
}).openapi("BookDocument");
