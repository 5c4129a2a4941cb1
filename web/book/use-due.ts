import { useEffect, useState } from "preact/hooks";
import { dueWork } from "../../model/book/due/due-work.ts";
import type { DueItem } from "../../model/book/due/item.ts";
import { fetchJson } from "./book-data.ts";
import type { BookOnPage } from "./use-book.ts";

/** Days ahead that are drawn. */
export const DUE_DAYS = 14;
/** Days ahead that are listed: what is opened after eight weeks is among them. */
export const LATER_DAYS = 70;

/** What is due: as the server says it, or worked out here from what waits and what the device keeps. */
export function useDue({ entries, outbox, seen }: BookOnPage, nowMs: number): readonly DueItem[] {
  const [told, setTold] = useState<readonly DueItem[] | null>(null);
  const waits = outbox.queue.length > 0;
  const tenMinutes = Math.floor(nowMs / 600_000);
  useEffect(() => {
    let gone = false;
    void fetchJson<{ readonly items: readonly DueItem[] }>(`api/book/due?days=${LATER_DAYS}`).then((got) => {
      if (!gone) setTold(got.ok ? got.value.items : null);
    });
    return () => {
      gone = true;
    };
  }, [seen, tenMinutes]);
  if (told !== null && !waits) return told;
  const { sites, fields, cuts, lots } = entries;
  return dueWork({ nowUtcMs: nowMs, days: LATER_DAYS, sites, fields, cuts, lots });
}
