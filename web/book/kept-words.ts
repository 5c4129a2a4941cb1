import type { BookDocs } from "../../model/book/index.ts";
import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import { fullText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { type Told, zoneOf } from "./told-entry.ts";
import type { ShownBook } from "./use-book.ts";

/** What the page keeps by itself, without a form. Pure. */

export const KEPT_KINDS = ["forecasts", "uploads", "crew-plans"] as const;
export type KeptKind = (typeof KEPT_KINDS)[number];

export const KEPT_WORDS: Readonly<Record<KeptKind, { readonly many: string; readonly none: string }>> = {
  forecasts: { many: "Forecasts issued", none: "None yet: kept by itself once a kept field is looked at." },
  uploads: { many: "Weather files", none: "None yet: kept when a kept field's board is made of one." },
  "crew-plans": { many: "Crew plans", none: "None yet: kept from the crew plan's own section." },
};

type Light<K extends KeptKind> = Omit<BookDocs[K], "request" | "course" | "series" | "answer">;

const WAYS: {
  readonly [K in KeptKind]: (doc: Light<K>, book: ShownBook, manner: Manner) => Told;
} = {
  forecasts: (doc, book, manner) => {
    const field = book.fields.find(({ id }) => id === doc.fieldId)?.doc.name;
    const parts = [
      doc.cutId ? "of a kept cut" : "of the field",
      doc.crop ? CROP_CATALOGUE[doc.crop].label.toLowerCase() : null,
      doc.route ? ROUTE_LABELS[doc.route] : null,
      doc.provider,
    ];
    return {
      title: `${field ?? "A field that is gone"}, ${fullText(doc.issuedUtc, manner)}`,
      line: parts.filter((part) => part).join(", "),
    };
  },
  uploads: (doc, _book, manner) => ({
    title: doc.name,
    line: `${fullText(doc.fromUtc, manner)} to ${fullText(doc.toUtc, manner)}`,
  }),
  "crew-plans": (doc, _book, manner) => ({ title: doc.name, line: `made ${fullText(doc.madeUtc, manner)}` }),
};

/** Tells one of them, its times on the clock of its farm. */
export function toldKept<K extends KeptKind>(kind: K, doc: Light<K>, book: ShownBook, manner: Manner): Told {
  const zone = zoneOf(doc as Parameters<typeof zoneOf>[0], book, manner.zone);
  const { title, line } = WAYS[kind](doc, book, { ...manner, zone });
  return { title, line: sentenceCase(line) };
}
