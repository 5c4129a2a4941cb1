import { z } from "@hono/zod-openapi";
import {
  BOOK_KINDS,
  BOOK_LIMITS,
  type BookDocs,
  type BookKind,
  DANGERS,
  DUE_WORK,
  HEAVY_KEYS,
} from "../../../model/book/index.ts";
import { errorSchema } from "../error.ts";
import { limited, record, utcTime, whole } from "../parts.ts";
import { BOOK_SCHEMAS } from "./kinds.ts";
import { bookId } from "./parts.ts";

/** Most entries of one page of a list. */
export const PAGE_LIMIT = { min: 1, max: 500, unit: "entries" } as const;
export const PAGE_USUAL = 100;
export const DAYS_USUAL = 14;
/** Of a calendar that is subscribed to: what is opened after eight weeks stands in it from the day it is stored. */
export const CALENDAR_DAYS = 70;

/** A number in an address. */
function numberText(schema: z.ZodType<number>) {
  return z.preprocess(
    (text) => (typeof text === "string" && text.trim() !== "" ? Number(text) : text),
    schema,
  );
}

const yes = z.enum(["true", "false"]);

/** Which book is asked: one's own, or the demonstration's, which can only be read. */
const book = z.enum(["own", "demo"]).optional();

export const bookQuery = record({ book });
export const idOnly = record({ id: bookId });

export const listQuery = record({
  book,
  siteId: bookId.optional(),
  fieldId: bookId.optional(),
  cutId: bookId.optional(),
  lotId: bookId.optional(),
  fromUtc: utcTime.optional().openapi({ description: "The entry's own moment, else that of its making" }),
  toUtc: utcTime.optional().openapi({ description: "Before this" }),
  changedSinceUtc: utcTime.optional(),
  deleted: yes.optional().openapi({ description: "true = tombstones too" }),
  whole: yes.optional().openapi({ description: "true = with series, requests, courses and answers" }),
  newestFirst: yes.optional(),
  limit: numberText(whole(PAGE_LIMIT)).optional(),
  after: z.string().max(300).optional().openapi({ description: "`next` of the page before" }),
}).openapi("BookListQuery");

/** A calendar program can send no header: its token is read by the keys' own check. */
export const calendarQuery = record({ token: z.string().max(300).optional() });

export const dueQuery = record({
  book,
  days: numberText(limited(BOOK_LIMITS.latestDays)).optional(),
  token: z.string().max(300).optional(),
}).openapi("DueQuery");

export const importQuery = record({
  mode: z.enum(["add", "replace"]).optional().openapi({
    description: "add (usual): refused whole where an id is there with another content; replace",
  }),
}).openapi("ImportQuery");

export const revisionQuery = record({
  book,
  revision: numberText(z.int().min(1).max(2_147_483_647)).optional(),
}).openapi("RevisionQuery");

const revision = z.int().min(1).max(2_147_483_647);

const pascal = (kind: BookKind) =>
  kind.replace(/(^|-)(.)/g, (_all, _dash, letter: string) => letter.toUpperCase());

/** The JSON of one kind: its entry, its list, and what is sent. */
export function kindSchemas<K extends BookKind>(kind: K) {
  const doc = BOOK_SCHEMAS[kind];
  const name = pascal(kind);
  const head = {
    id: bookId,
    revision,
    createdUtc: utcTime,
    changedUtc: utcTime,
    deleted: z.boolean(),
  };
  const entry = z.strictObject({ ...head, doc }).openapi(`Entry${name}`);
  const heavy = HEAVY_KEYS[kind];
  const listed = heavy
    ? z.strictObject({ ...head, doc: z.looseObject({}) }).openapi(`Listed${name}`, {
        description: `As Entry${name}; ${heavy.join(", ")} only with whole=true`,
      })
    : entry;
  return {
    entry,
    list: z.strictObject({ entries: z.array(listed), next: z.string().nullable() }),
    conflict: z
      .strictObject({ ...errorSchema.shape, entry })
      .openapi(`Conflict${name}`, { description: "The entry as it stands now" }),
    create: record({ id: bookId, doc }) as unknown as z.ZodType<{
      readonly id: string;
      readonly doc: BookDocs[K];
    }>,
    put: record({ revision: revision.optional(), doc }) as unknown as z.ZodType<{
      readonly revision?: number;
      readonly doc: BookDocs[K];
    }>,
    patch: record({ revision: revision.optional(), doc: z.record(z.string(), z.unknown()) }),
  };
}

export const bookState = z
  .strictObject({
    engine: z.string(),
    readOnly: z.boolean(),
    counts: z.record(z.enum(BOOK_KINDS), z.number()),
  })
  .openapi("BookState");

const dueItem = z
  .strictObject({
    id: z.string(),
    work: z.enum(DUE_WORK),
    title: z.string(),
    text: z.string(),
    atUtc: utcTime,
    byUtc: utcTime.nullable(),
    allDay: z.boolean(),
    day: z.string(),
    timeZone: z.string(),
    overdue: z.boolean(),
    danger: z.enum(DANGERS).nullable(),
    repeat: z.strictObject({ everyH: z.number(), untilUtc: utcTime }).nullable(),
    fieldId: z.string().nullable(),
    cutId: z.string().nullable(),
    lotId: z.string().nullable(),
    revision: z.number(),
    source: z.string().nullable(),
  })
  .openapi("DueItem");

export const dueAnswer = z
  .strictObject({ nowUtc: utcTime, days: z.number(), items: z.array(dueItem) })
  .openapi("DueAnswer");

export const imported = z
  .strictObject({
    added: z.number(),
    same: z.number(),
    removed: z.number(),
    backup: z.string().nullable(),
  })
  .openapi("Imported");

export const copied = z.strictObject({ copied: z.number(), kept: z.number() }).openapi("Copied");
