import type { PlanToExport } from "../crew/export.ts";
import type { Book } from "./book.ts";
import { sequenceOfFile } from "./plan-sequence.ts";

/** SEQUENCE of a plan's file by the book that may hold the same plan; by its own revision where no book is at hand. */
export function sequenceInBook(book: (() => Promise<Book>) | undefined) {
  const counted = async (plan: PlanToExport, id: string): Promise<number> => {
    const own = plan.revision ?? 0;
    const open = await book?.();
    const stored = await open?.one("crew-plans", id);
    if (open === undefined || stored == null) return own;
    const { isNew, ...sent } = sequenceOfFile(plan, stored);
    // A book that cannot be written keeps nobody from a file.
    if (isNew) await open.noteSent(id, stored.revision, sent).catch(() => undefined);
    return sent.sequence;
  };
  // One after the other: of two files at once each sees what the other was counted as.
  let last: Promise<unknown> = Promise.resolve();
  return (plan: PlanToExport): Promise<number> => {
    const { planId, revision: own = 0 } = plan;
    if (book === undefined || planId === undefined) return Promise.resolve(own);
    // Nor does a book that cannot be read.
    const next = last.then(() => counted(plan, planId)).catch(() => own);
    last = next;
    return next;
  };
}
