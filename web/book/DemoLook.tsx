import { useEffect, useState } from "preact/hooks";
import { dueWork } from "../../model/book/due/due-work.ts";
import type { Manner } from "../format/manner.ts";
import { type Fetched, fetchEntries, SHOWN_KINDS } from "./book-data.ts";
import { KIND_WORDS } from "./book-words.ts";
import { DueList } from "./DueList.tsx";
import { toldEntry } from "./told-entry.ts";
import { type ShownBook, shownBook } from "./use-book.ts";
import { LATER_DAYS } from "./use-due.ts";

/** The invented farm's book, to be looked at: nothing of it is one's own, and nothing of it changes. */
export function DemoLook({ nowMs, manner }: { readonly nowMs: number; readonly manner: Manner }) {
  const [demo, setDemo] = useState<Fetched<ShownBook> | null>(null);
  useEffect(() => {
    let gone = false;
    void fetchEntries("demo").then((got) => {
      if (!gone) setDemo(got.ok ? { ok: true, value: shownBook(got.value, []) } : got);
    });
    return () => {
      gone = true;
    };
  }, []);
  if (demo === null) return <p>Being looked up ...</p>;
  if (!demo.ok) return <p class="book-waiting">Not shown: {demo.trouble.message}</p>;
  const book = demo.value;
  const { sites, fields, cuts, lots } = book;
  return (
    <>
      <p>Invented: no farm, no people. It can only be looked at; a copy of it can be changed.</p>
      <DueList
        items={dueWork({ nowUtcMs: nowMs, days: LATER_DAYS, sites, fields, cuts, lots })}
        nowMs={nowMs}
        manner={manner}
        of="the invented farm"
      />
      {SHOWN_KINDS.filter((kind) => book[kind].length > 0).map((kind) => (
        <section key={kind} class="book-kept" aria-label={`${KIND_WORDS[kind].many} of the invented farm`}>
          <h4>{KIND_WORDS[kind].many}</h4>
          <ul class="book-entries">
            {book[kind].map(({ id, doc }) => {
              const { title, line } = toldEntry(kind, doc, book, manner);
              return (
                <li key={id}>
                  <div>
                    <strong>{title}</strong>
                    <p>{line}</p>
                  </div>
                </li>
              );
            })}
          </ul>
        </section>
      ))}
    </>
  );
}
