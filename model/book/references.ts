import type { BookDocs, BookKind } from "./kinds.ts";

/** What one document says of others and of time: what the book can be asked by. */
export interface Bearings {
  readonly siteId: string | null;
  readonly fieldId: string | null;
  readonly cutId: string | null;
  readonly lotId: string | null;
  /** Its own moment; null where the kind has none. */
  readonly atUtc: string | null;
}

const NOWHERE: Bearings = { siteId: null, fieldId: null, cutId: null, lotId: null, atUtc: null };

type BearingsOf = { readonly [K in BookKind]: (doc: BookDocs[K]) => Partial<Bearings> };

const BEARINGS: BearingsOf = {
  sites: () => ({}),
  fields: ({ siteId }) => ({ siteId }),
  machines: () => ({}),
  people: () => ({}),
  prices: () => ({}),
  herds: () => ({}),
  uploads: ({ siteId, fromUtc }) => ({ siteId, atUtc: fromUtc }),
  cuts: ({ fieldId, cutUtc, plannedUtc }) => ({ fieldId, atUtc: cutUtc ?? plannedUtc ?? null }),
  lots: ({ fieldId, cutId, storedUtc }) => ({
    fieldId: fieldId ?? null,
    cutId: cutId ?? null,
    atUtc: storedUtc,
  }),
  readings: ({ fieldId, cutId, lotId, atUtc }) => ({
    fieldId: fieldId ?? null,
    cutId: cutId ?? null,
    lotId: lotId ?? null,
    atUtc,
  }),
  forecasts: ({ fieldId, siteId, cutId, issuedUtc }) => ({
    fieldId: fieldId ?? null,
    siteId: siteId ?? null,
    cutId: cutId ?? null,
    atUtc: issuedUtc,
  }),
  "learned-rates": ({ fieldId, atUtc }) => ({ fieldId, atUtc }),
  "crew-plans": ({ madeUtc }) => ({ atUtc: madeUtc }),
};

export function bearingsOf<K extends BookKind>(kind: K, doc: BookDocs[K]): Bearings {
  return { ...NOWHERE, ...BEARINGS[kind](doc) };
}

/** Which kind each of the keys names. */
export const KIND_OF_KEY = {
  siteId: "sites",
  fieldId: "fields",
  cutId: "cuts",
  lotId: "lots",
} as const satisfies Partial<Record<keyof Bearings, BookKind>>;
export type ReferenceKey = keyof typeof KIND_OF_KEY;
export const REFERENCE_KEYS = Object.keys(KIND_OF_KEY) as readonly ReferenceKey[];

/** An entry that a document names, and where. */
export interface Named {
  readonly kind: BookKind;
  readonly id: string;
  readonly path: string;
}

/** All that a document names: what the book can be asked by, and who did the work with what. */
export function namedBy<K extends BookKind>(kind: K, doc: BookDocs[K]): Named[] {
  const bearings = bearingsOf(kind, doc);
  const named = REFERENCE_KEYS.map((key) => ({ kind: KIND_OF_KEY[key], id: bearings[key], path: key }));
  const { operations } = (kind === "cuts" ? doc : {}) as Partial<BookDocs["cuts"]>;
  const workers = (operations ?? []).flatMap(({ machineId, personId }, i) => [
    { kind: "machines" as const, id: machineId ?? null, path: `operations[${i}].machineId` },
    { kind: "people" as const, id: personId ?? null, path: `operations[${i}].personId` },
  ]);
  return [...named, ...workers].flatMap(({ id, ...rest }) => (id === null ? [] : [{ ...rest, id }]));
}

/** Keys too heavy for a list: they come with the single entry. */
export const HEAVY_KEYS: Readonly<Partial<Record<BookKind, readonly string[]>>> = {
  uploads: ["series"],
  forecasts: ["request", "course"],
  "crew-plans": ["request", "answer"],
};
