import { type DueItem, dueWork } from "../../model/book/index.ts";
import type { BookReader } from "./book.ts";

/** What is due of a book. */
export async function dueOf(book: BookReader, nowUtcMs: number, days: number): Promise<DueItem[]> {
  const [sites, fields, cuts, lots] = await Promise.all([
    book.all("sites", true),
    book.all("fields", true),
    book.all("cuts"),
    book.all("lots"),
  ]);
  return dueWork({ nowUtcMs, days, sites, fields, cuts, lots });
}
