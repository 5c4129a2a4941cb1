/** The book's public face: what outlives the evening, and what is due of it. */

export * from "./farm-docs.ts";
export { BOOK_KINDS, type BookDocs, type BookKind, type Entry } from "./kinds.ts";
export { BOOK_COUNTS, BOOK_ID, BOOK_LIMITS } from "./limits.ts";
export {
  type Bearings,
  bearingsOf,
  HEAVY_KEYS,
  KIND_OF_KEY,
  REFERENCE_KEYS,
  type ReferenceKey,
} from "./references.ts";
export * from "./work-docs.ts";
