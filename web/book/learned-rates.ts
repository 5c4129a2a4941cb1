import type { Entry, LearnedRateDoc } from "../../model/book/index.ts";
import type { LearnedRateRequest } from "../../model/drying/index.ts";
import { readLocal, writeLocal } from "../reading/local.ts";
import { type Learned, learnedKey } from "../reading/readings.ts";

/** What readings taught of fields, between this device and the book. Pure but for what the device notes of it. */

/** A rate that this device sent to the book. */
export interface SentRate {
  /** Field and crop, as the page keys its rates. */
  readonly key: string;
  /** The readings that taught it: sent once for each set of them. */
  readonly mark: string;
  readonly id: string;
  readonly doc: LearnedRateDoc;
}

export interface RateNotes {
  readonly sent: readonly SentRate[];
  /** Entries of the book that were taken here already: what is forgotten then does not come back. */
  readonly seen: readonly string[];
}

const KEY = "swathclock-book-learned";
const MOST_NOTES = 200;

export function rateNotes(): RateNotes {
  const { sent, seen } = (readLocal(KEY) ?? {}) as Partial<RateNotes>;
  return { sent: Array.isArray(sent) ? sent : [], seen: Array.isArray(seen) ? seen.map(String) : [] };
}

export function keepNotes({ sent, seen }: RateNotes): void {
  writeLocal(KEY, { sent: sent.slice(-MOST_NOTES), seen: seen.slice(-MOST_NOTES) } satisfies RateNotes);
}

export interface Known {
  readonly learned: Learned;
  /** Fields and crops whose readings lie on this device: they teach it themselves, and would count twice. */
  readonly own: ReadonlySet<string>;
  readonly seen: ReadonlySet<string>;
}

export interface FromBook {
  readonly learned: Readonly<Record<string, LearnedRateRequest>>;
  /** Entries that were looked at for good. */
  readonly ids: readonly string[];
}

/** The rates of the book that are newer than what the device knows, under the names of their fields. */
export function ratesOfBook(
  rates: readonly Entry<"learned-rates">[],
  fields: readonly Entry<"fields">[],
  { learned, own, seen }: Known,
): FromBook {
  const found: Record<string, LearnedRateRequest> = {};
  const ids: string[] = [];
  for (const { id, doc } of rates) {
    const field = fields.find((one) => one.id === doc.fieldId);
    if (field === undefined || seen.has(id)) continue;
    const key = learnedKey(field.doc.name, doc.crop);
    if (own.has(key)) continue;
    ids.push(id);
    const before = found[key] ?? learned[key];
    if (before !== undefined && Date.parse(before.atUtc) >= Date.parse(doc.atUtc)) continue;
    found[key] = { rateLnMean: doc.lnMean, rateLnSd: doc.lnSd, atUtc: doc.atUtc };
  }
  return { learned: found, ids };
}
