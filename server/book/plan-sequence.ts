import type { BookDocs, BookKind } from "../../model/book/index.ts";

/**
 * SEQUENCE of a crew plan's visits (RFC 5545, 3.8.7.4): one count for each plan, that never falls. The stored plan keeps
 * it and raises it with each change, whatever revision the answer in it has; the calendar's address and the file that is
 * written from an answer of the same `planId` both go by it.
 */

type PlanDoc = BookDocs["crew-plans"];

/** The revision that an answer itself has; 0 where it tells none. */
function revisionIn({ answer }: Pick<PlanDoc, "answer">): number {
  const { revision } = answer;
  return typeof revision === "number" && Number.isInteger(revision) && revision > 0 ? revision : 0;
}

/**
 * The count of a stored plan.
 *
 * @param entryRevision of the entry: what counted before documents kept a count of their own
 */
export function sequenceOf(doc: PlanDoc, entryRevision: number): number {
  return doc.sequence ?? Math.max(entryRevision, revisionIn(doc));
}

/** A document as it is written: a crew plan with its count raised, any other as it is. */
export function counted<K extends BookKind>(
  kind: K,
  doc: BookDocs[K],
  before: { readonly doc: BookDocs[K]; readonly revision: number } | null,
): BookDocs[K] {
  if (kind !== "crew-plans") return doc;
  const plan = doc as PlanDoc;
  const last = before === null ? 0 : sequenceOf(before.doc as PlanDoc, before.revision);
  return { ...plan, sequence: Math.max(last + 1, plan.sequence ?? 0, revisionIn(plan)) } as BookDocs[K];
}

/** What was sent compared with what is kept: the count is the book's own. */
export function uncounted<K extends BookKind>(kind: K, doc: BookDocs[K]): BookDocs[K] {
  if (kind !== "crew-plans") return doc;
  const { sequence: _sequence, ...rest } = doc as PlanDoc;
  return rest as BookDocs[K];
}

function sameVisits(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/**
 * SEQUENCE of a file that is written from an answer whose plan the book holds: as there for the same visits, else above
 * it, since the file is the newer one.
 */
export function sequenceOfFile(
  plan: { readonly jobs: unknown; readonly changes?: unknown; readonly revision?: number | undefined },
  stored: { readonly doc: PlanDoc; readonly revision: number; readonly deleted: boolean } | null,
): number {
  const own = plan.revision ?? 0;
  if (stored === null) return own;
  const last = sequenceOf(stored.doc, stored.revision);
  const same = !stored.deleted && sameVisits(plan.jobs, stored.doc.answer.jobs);
  return Math.max(own, same ? last : last + 1);
}
