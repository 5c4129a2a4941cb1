import type { ForecastDoc } from "../../model/book/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { type RecordAnswer, recordAnswer, recordOfBook } from "../../model/odds/index.ts";
import type { BookReader } from "./book.ts";
import { every } from "./every.ts";

/** Of a forecast what the record reads; its request, with all the weather, is let go at once. */
type Scored = Pick<ForecastDoc, "fieldId" | "cutId" | "issuedUtc" | "route" | "course" | "chances">;

/** The scores of what the book's forecasts said against its readings, by the farm's days. */
export async function recordOf(book: BookReader): Promise<Outcome<RecordAnswer>> {
  const forecasts: Scored[] = [];
  for await (const { doc } of every(book, "forecasts", { whole: true, limit: 20 })) {
    const { fieldId, cutId, issuedUtc, route, course, chances } = doc;
    forecasts.push({ fieldId, cutId, issuedUtc, route, course, chances });
  }
  const readings = [];
  for await (const { doc } of every(book, "readings")) readings.push(doc);
  const sites = await book.all("sites");
  return recordAnswer(recordOfBook(sites[0]?.doc.timeZone ?? "UTC", forecasts, readings));
}
