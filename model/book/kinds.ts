import type { FieldDoc, HerdDoc, MachineDoc, PersonDoc, PricesDoc, SiteDoc } from "./farm-docs.ts";
import type {
  CrewPlanDoc,
  CutDoc,
  ForecastDoc,
  LearnedRateDoc,
  LotDoc,
  ReadingDoc,
  UploadDoc,
} from "./work-docs.ts";

/** In the order in which they refer to one another: a document names only those before its own kind. */
export const BOOK_KINDS = [
  "sites",
  "fields",
  "machines",
  "people",
  "prices",
  "herds",
  "uploads",
  "cuts",
  "lots",
  "readings",
  "forecasts",
  "learned-rates",
  "crew-plans",
] as const;
export type BookKind = (typeof BOOK_KINDS)[number];

export interface BookDocs {
  readonly sites: SiteDoc;
  readonly fields: FieldDoc;
  readonly machines: MachineDoc;
  readonly people: PersonDoc;
  readonly prices: PricesDoc;
  readonly herds: HerdDoc;
  readonly uploads: UploadDoc;
  readonly cuts: CutDoc;
  readonly lots: LotDoc;
  readonly readings: ReadingDoc;
  readonly forecasts: ForecastDoc;
  readonly "learned-rates": LearnedRateDoc;
  readonly "crew-plans": CrewPlanDoc;
}

/** An entry as it stands in the book. */
export interface Entry<K extends BookKind = BookKind> {
  readonly id: string;
  /** 1 when it is made, one more with each change. */
  readonly revision: number;
  readonly createdUtc: string;
  readonly changedUtc: string;
  /** A tombstone keeps the last document. */
  readonly deleted: boolean;
  readonly doc: BookDocs[K];
}
