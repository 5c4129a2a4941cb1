import type { CutDoc, FieldDoc, LotDoc, ReadingDoc, SiteDoc } from "../../../model/book/index.ts";
import type { Book } from "../../../server/book/book.ts";

/** An invented farm's documents, as small as they may be. */

export const SITE: SiteDoc = {
  name: "Home",
  latitude: 44.3,
  longitude: -98.2,
  elevationM: 400,
  timeZone: "America/Chicago",
};

export const FIELD: FieldDoc = { name: "Creek field", siteId: "home", areaHa: 12, crop: "alfalfa" };

export const CUT: CutDoc = { fieldId: "creek", crop: "alfalfa", plannedUtc: "2026-07-02T14:00:00Z" };

export const LOT: LotDoc = {
  name: "Creek, first cutting",
  fieldId: "creek",
  crop: "alfalfa",
  route: "dry-hay",
  bales: 40,
  storedUtc: "2026-07-01T20:00:00Z",
};

export const READING: ReadingDoc = {
  fieldId: "creek",
  atUtc: "2026-07-01T18:00:00Z",
  method: "microwave",
  moistureWb: 0.31,
};

/** Site and field, so that others can name them. */
export async function withField(book: Book): Promise<Book> {
  await book.make("sites", "home", SITE);
  await book.make("fields", "creek", FIELD);
  return book;
}
