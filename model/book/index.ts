/** The book's public face: what outlives the evening, and what is due of it. */

export { entryIssues } from "./check/check-entry.ts";
export { lotsCsv, readingsCsv } from "./csv.ts";
export { demoDocs } from "./demo.ts";
export { dueWork } from "./due/due-work.ts";
export { DANGERS, type Danger, DUE_WORK, type DueItem, type DueQuestion, type DueWork } from "./due/item.ts";
export { openingMs } from "./due/of-lots.ts";
export { DUE } from "./due/records.ts";
export * from "./farm-docs.ts";
export { BOOK_KINDS, type BookDocs, type BookKind, type Entry } from "./kinds.ts";
export { BOOK_COUNTS, BOOK_ID, BOOK_LIMITS } from "./limits.ts";
export {
  type Bearings,
  bearingsOf,
  HEAVY_KEYS,
  KIND_OF_KEY,
  type Named,
  namedBy,
  REFERENCE_KEYS,
  type ReferenceKey,
} from "./references.ts";
export * from "./work-docs.ts";
