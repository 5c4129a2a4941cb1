import type { PlanToExport } from "../crew/export.ts";
import type { Book } from "./book.ts";
import { sequenceOfFile } from "./plan-sequence.ts";

/** SEQUENCE of a plan's file by the book that may hold the same plan; by its own revision where no book is at hand. */
export function sequenceInBook(book: (() => Promise<Book>) | undefined) {
  return async (plan: PlanToExport): Promise<number> => {
    const own = plan.revision ?? 0;
    if (book === undefined || plan.planId === undefined) return own;
    const { planId } = plan;
    // A book that cannot be read keeps nobody from a file.
    const stored = await book()
      .then((open) => open.one("crew-plans", planId))
      .catch(() => null);
    return sequenceOfFile(plan, stored);
  };
}
