import type { BookDocs, BookKind } from "../../model/book/index.ts";
import { type PlanToExport, visitsOf } from "../crew/export.ts";
import { planToExport } from "../schemas/crew-export.ts";
import { hashOf } from "./rows.ts";

/**
 * SEQUENCE of a crew plan's visits (RFC 5545, 3.8.7.4): one count for each plan, that never falls. The stored plan keeps
 * it and raises it with each change, whatever revision the answer in it has. A file that is written from an answer of the
 * same `planId` has the count of the same visits, else the next one, which the book keeps as sent.
 */

type PlanDoc = BookDocs["crew-plans"];
type Sent = NonNullable<PlanDoc["sent"]>;

/** The revision that an answer itself has; 0 where it tells none. */
function revisionIn({ answer }: Pick<PlanDoc, "answer">): number {
  const { revision } = answer;
  return typeof revision === "number" && Number.isInteger(revision) && revision > 0 ? revision : 0;
}

/** What the visits of a stored answer are known by; null where it is no plan. */
function visitsIn({ answer }: Pick<PlanDoc, "answer">): string | null {
  const plan = planToExport.safeParse(answer);
  return plan.success ? hashOf(visitsOf(plan.data as PlanToExport)) : null;
}

/**
 * The count of a stored plan.
 *
 * @param entryRevision of the entry: what counted before documents kept a count of their own
 */
export function sequenceOf(doc: PlanDoc, entryRevision: number): number {
  const own = doc.sequence ?? Math.max(entryRevision, revisionIn(doc));
  const { sent } = doc;
  // The same visits went out again, as a file, after others.
  return sent != null && sent.sequence > own && sent.visits === visitsIn(doc) ? sent.sequence : own;
}

/** A document as it is written: a crew plan with its count raised above every file that has other visits. */
export function counted<K extends BookKind>(
  kind: K,
  doc: BookDocs[K],
  before: { readonly doc: BookDocs[K]; readonly revision: number } | null,
): BookDocs[K] {
  if (kind !== "crew-plans") return doc;
  const plan = doc as PlanDoc;
  if (before === null) {
    return { ...plan, sequence: Math.max(1, plan.sequence ?? 0, revisionIn(plan)) } as BookDocs[K];
  }
  const stored = before.doc as PlanDoc;
  const last = sequenceOf(stored, before.revision);
  const { sent } = stored;
  const isSent = sent != null && sent.sequence > last && sent.visits === visitsIn(plan);
  const next = isSent ? sent.sequence : Math.max(last, sent?.sequence ?? 0) + 1;
  const sequence = Math.max(next, plan.sequence ?? 0, revisionIn(plan));
  return { ...plan, sequence, ...(sent == null ? {} : { sent }) } as BookDocs[K];
}

/**
 * A plan of a document that takes the place of the book's own: a document may be older than what went out since, and a count
 * that fell would have every calendar pass the plan over.
 */
export function countedOver(
  doc: PlanDoc,
  revision: number,
  stored: { readonly doc: PlanDoc; readonly revision: number },
): PlanDoc {
  const last = sequenceOf(stored.doc, stored.revision);
  const sent = [doc.sent, stored.doc.sent].reduce((a, b) =>
    (b?.sequence ?? 0) > (a?.sequence ?? 0) ? b : a,
  );
  const isSame = visitsIn(doc) === visitsIn(stored.doc);
  const least = isSame ? last : Math.max(last, stored.doc.sent?.sequence ?? 0) + 1;
  const sequence = Math.max(sequenceOf(doc, revision), least);
  const isHigher = sequence > sequenceOf(doc, revision) || sent?.sequence !== doc.sent?.sequence;
  return isHigher ? { ...doc, sequence, ...(sent == null ? {} : { sent }) } : doc;
}

/** What was sent compared with what is kept: the counts are the book's own. */
export function uncounted<K extends BookKind>(kind: K, doc: BookDocs[K]): BookDocs[K] {
  if (kind !== "crew-plans") return doc;
  const { sequence: _sequence, sent: _sent, ...rest } = doc as PlanDoc;
  return rest as BookDocs[K];
}

/**
 * SEQUENCE of a file that is written from an answer whose plan the book holds: as it was for the same visits where they
 * are the last that went out, else above all that did.
 *
 * @returns what the book must keep of it; `isNew` = it is not kept yet
 */
export function sequenceOfFile(
  plan: PlanToExport,
  stored: { readonly doc: PlanDoc; readonly revision: number; readonly deleted: boolean },
): Sent & { readonly isNew: boolean } {
  const visits = hashOf(visitsOf(plan));
  const { doc, revision, deleted } = stored;
  const own = sequenceOf(doc, revision);
  const kept: { readonly sequence: number; readonly visits: string | null } = {
    sequence: own,
    visits: deleted ? null : visitsIn(doc),
  };
  const last = doc.sent != null && doc.sent.sequence > own ? doc.sent : kept;
  const next = last.visits === visits ? last.sequence : last.sequence + 1;
  const sequence = Math.max(plan.revision ?? 0, next);
  return { sequence, visits, isNew: sequence > last.sequence };
}
