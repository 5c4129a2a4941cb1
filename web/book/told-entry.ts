import { openingMs } from "../../model/book/due/of-lots.ts";
import type { BookDocs } from "../../model/book/index.ts";
import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import { READING_METHODS } from "../../model/odds/reading-methods.ts";
import { dayDateText, fullText } from "../format/farm-time.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { listText, moisturePct, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { spotText } from "../place/spot.ts";
import type { ShownKind } from "./book-data.ts";
import { MACHINE_WORDS, OPERATION_WORDS, spaced, TEST_WORDS } from "./book-words.ts";
import type { AnyDoc } from "./queue.ts";
import type { ShownBook } from "./use-book.ts";

/** An entry as a list tells it: its name, and a line of what matters. */
export interface Told {
  readonly title: string;
  readonly line: string;
}

interface Ground {
  readonly book: ShownBook;
  /** In the zone of the entry's own farm. */
  readonly manner: Manner;
}

const joined = (parts: readonly (string | null | undefined | false)[]): string =>
  parts.filter((part) => part).join(", ");

/** Entries that a document names, by their keys. */
export interface Names {
  readonly fieldId?: string | null | undefined;
  readonly cutId?: string | null | undefined;
  readonly lotId?: string | null | undefined;
  readonly siteId?: string | null | undefined;
}

/** The field that an entry is of, through its cut or its lot where it does not name one. */
export function fieldIdOf(doc: Names, book: ShownBook): string | null {
  if (doc.fieldId) return doc.fieldId;
  const cut = book.cuts.find(({ id }) => id === doc.cutId);
  if (cut) return cut.doc.fieldId;
  const lot = book.lots.find(({ id }) => id === doc.lotId);
  return lot ? fieldIdOf({ fieldId: lot.doc.fieldId, cutId: lot.doc.cutId }, book) : null;
}

/** The clock of an entry's farm: its field's place, else the book's only one, else the page's. */
export function zoneOf(doc: Names, book: ShownBook, otherwise: string): string {
  const field = book.fields.find(({ id }) => id === fieldIdOf(doc, book));
  const siteId = doc.siteId ?? field?.doc.siteId;
  const site = book.sites.find(({ id }) => id === siteId) ?? book.sites[0];
  return site?.doc.timeZone ?? otherwise;
}

const fieldName = (doc: Names, book: ShownBook): string =>
  book.fields.find(({ id }) => id === fieldIdOf(doc, book))?.doc.name ?? "a field that is gone";

function measured({ moistureWb, range }: BookDocs["readings"], manner: Manner): string {
  if (range) return `${moisturePct(range[0], manner)} to ${moisturePct(range[1], manner)}`;
  return moistureWb === null || moistureWb === undefined
    ? ""
    : `${numberText(moistureWb * 100, 1, manner)} %`;
}

const WAYS: { readonly [K in ShownKind]: (doc: BookDocs[K], ground: Ground) => Told } = {
  fields: (doc, { manner }) => ({
    title: doc.name,
    line: joined([
      quantityText(doc.areaHa, "area", manner),
      CROP_CATALOGUE[doc.crop].label.toLowerCase(),
      doc.dryMatterTHa ? quantityText(doc.dryMatterTHa, "dryMatterYield", manner) : null,
      doc.initialMoistureWb ? moisturePct(doc.initialMoistureWb, manner) : null,
      doc.stage,
      doc.sprays?.length ? `sprayed with ${listText(doc.sprays.map(({ product }) => product))}` : null,
      doc.customer,
    ]),
  }),
  cuts: (doc, { book, manner }) => ({
    title: `${fieldName(doc, book)}, ${
      doc.cutUtc ? `cut ${fullText(doc.cutUtc, manner)}` : `planned ${fullText(doc.plannedUtc ?? 0, manner)}`
    }`,
    line: joined([
      doc.route ? ROUTE_LABELS[doc.route] : null,
      ...(doc.operations ?? []).map(
        ({ kind, doneUtc }) => `${OPERATION_WORDS[kind]}${doneUtc ? " (done)" : ""}`,
      ),
      doc.closedUtc ? "closed" : null,
    ]),
  }),
  readings: (doc, { book, manner }) => ({
    title: `${measured(doc, manner)}, ${fullText(doc.atUtc, manner)}`,
    line: joined([
      book.lots.find(({ id }) => id === doc.lotId)?.doc.name ?? fieldName(doc, book),
      READING_METHODS[doc.method].label.toLowerCase(),
      doc.place,
    ]),
  }),
  lots: (doc, { manner }) => ({
    title: doc.name,
    line: joined([
      ROUTE_LABELS[doc.route],
      doc.bales ? `${numberText(doc.bales, 0, manner)} bales` : null,
      doc.loads ? `${numberText(doc.loads, 1, manner)} loads` : null,
      doc.store ? spaced(doc.store) : null,
      doc.place,
      `stored ${fullText(doc.storedUtc, manner)}`,
      doc.storedMoistureWb ? `at ${moisturePct(doc.storedMoistureWb, manner)}` : null,
      opening(doc, manner),
      hottest(doc, manner),
      awaited(doc),
      doc.results?.length
        ? `${doc.results.length} laboratory ${doc.results.length === 1 ? "result" : "results"}`
        : null,
    ]),
  }),
  sites: (doc, { manner }) => ({
    title: doc.name,
    line: joined([spotText(doc, manner), quantityText(doc.elevationM, "elevation", manner), doc.timeZone]),
  }),
  machines: (doc, { manner }) => ({
    title: doc.name,
    line: joined([
      MACHINE_WORDS[doc.kind],
      doc.package ? spaced(doc.package) : null,
      doc.haPerH ? quantityText(doc.haPerH, "areaRate", manner) : null,
      doc.widthM ? quantityText(doc.widthM, "width", manner) : null,
    ]),
  }),
  people: (doc) => ({ title: doc.name, line: `${doc.from} to ${doc.to}` }),
  prices: (doc, { manner }) => ({
    title: doc.name,
    line: joined([
      doc.currency,
      ...Object.entries(doc.pricePerTDm ?? {}).map(
        ([route, price]) =>
          `${ROUTE_LABELS[route as keyof typeof ROUTE_LABELS]} ${quantityText(price ?? 0, "perT", manner)}`,
      ),
    ]),
  }),
  herds: (doc, { manner }) => ({
    title: doc.name,
    line: joined([
      doc.count ? `${numberText(doc.count, 0, manner)}` : null,
      `${spaced(doc.animal.class)} of ${quantityText(doc.animal.kg, "mass", manner)}`,
      doc.dailyNeedKgDm ? `${quantityText(doc.dailyNeedKgDm, "mass", manner)} of dry matter a day` : null,
    ]),
  }),
};

/** When a lot is to be opened, or was. */
function opening(doc: BookDocs["lots"], manner: Manner): string | null {
  if (doc.openedUtc) return `opened ${dayDateText(doc.openedUtc, manner)}`;
  const atMs = openingMs(doc);
  return atMs === null || doc.finishedUtc ? null : `to be opened ${dayDateText(atMs, manner)}`;
}

function hottest({ heating }: BookDocs["lots"], manner: Manner): string | null {
  const temps = (heating ?? []).map(({ tempC }) => tempC);
  return temps.length === 0 ? null : `hottest ${quantityText(Math.max(...temps), "temperature", manner)}`;
}

function awaited({ tests, results }: BookDocs["lots"]): string | null {
  const open = (tests ?? []).filter(
    ({ id, resultUtc }) => !resultUtc && !(results ?? []).some(({ testId }) => testId === id),
  );
  return open.length === 0 ? null : `${listText(open.map(({ what }) => TEST_WORDS[what]))} awaited`;
}

/** Tells an entry, its times on the clock of its own farm. */
export function toldEntry(kind: ShownKind, doc: AnyDoc, book: ShownBook, manner: Manner): Told {
  const zone = zoneOf(doc as Names, book, manner.zone);
  const way = WAYS[kind] as (doc: AnyDoc, ground: Ground) => Told;
  const { title, line } = way(doc, { book, manner: { ...manner, zone } });
  return { title, line: sentenceCase(line) };
}
