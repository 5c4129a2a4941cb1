import type { BookKind, Entry } from "../../model/book/index.ts";
import type { BookReader, Mark } from "./book.ts";

/** Every entry of a kind that is not deleted, a page at a time, so that heavy ones never stand in memory together. */
export async function* every<K extends BookKind>(
  book: BookReader,
  kind: K,
  { whole = false, limit = 200 } = {},
): AsyncGenerator<Entry<K>> {
  for (let after: Mark | undefined; ; ) {
    const { entries, next } = await book.list(kind, { limit, whole, after });
    yield* entries;
    if (next === null) return;
    after = next;
  }
}
