import { useEffect, useState } from "preact/hooks";
import type { Entry } from "../../model/book/kinds.ts";
import type { Manner } from "../format/manner.ts";
import { fetchJson } from "./book-data.ts";
import { KEPT_KINDS, KEPT_WORDS, type KeptKind, toldKept } from "./kept-words.ts";
import { type Queue, withWaiting } from "./queue.ts";
import { theOutbox } from "./the-outbox.ts";
import type { ShownBook } from "./use-book.ts";

/** The newest of each kind; the whole stands in the export. */
const SHOWN = 20;

type Kept = { readonly [K in KeptKind]?: readonly Entry[] };

async function fetchKept(): Promise<Kept | null> {
  const lists = await Promise.all(
    KEPT_KINDS.map(async (kind) => {
      const got = await fetchJson<{ entries: readonly Entry[] }>(
        `api/book/${kind}?newestFirst=true&limit=${SHOWN}`,
      );
      return got.ok ? ([kind, got.value.entries] as const) : null;
    }),
  );
  return lists.some((list) => list === null)
    ? null
    : Object.fromEntries(lists.flatMap((list) => (list ? [list] : [])));
}

interface KeptListProps {
  readonly book: ShownBook;
  readonly queue: Queue;
  readonly manner: Manner;
  readonly canEdit: boolean;
  /** Rises with each look at the server's book. */
  readonly seen: number;
}

function OneKept({
  title,
  line,
  waits,
  onRemove,
}: {
  readonly title: string;
  readonly line: string;
  readonly waits: number;
  readonly onRemove: (() => void) | null;
}) {
  const [sure, setSure] = useState(false);
  const named = <span class="hidden"> {title}</span>;
  return (
    <li>
      <div>
        <strong>{title}</strong>
        {waits > 0 ? <span class="book-waits">not sent yet</span> : null}
        <p>{line}</p>
      </div>
      {onRemove === null ? null : (
        <div class="book-buttons">
          {sure ? (
            <button type="button" class="aid" onClick={onRemove}>
              Yes, remove{named}
            </button>
          ) : null}
          <button type="button" class="aid" onClick={() => setSure(!sure)}>
            {sure ? "No" : "Remove"}
            {named}
          </button>
        </div>
      )}
    </li>
  );
}

/** What the page kept by itself: forecasts, files of weather, crew plans. When, what, and a way to remove each. */
export function KeptList({ book, queue, manner, canEdit, seen }: KeptListProps) {
  const [kept, setKept] = useState<Kept | null>(null);
  const [ready, setReady] = useState(false);
  useEffect(() => {
    let current = true;
    void fetchKept().then((got) => {
      if (!current) return;
      if (got !== null) setKept(got);
      setReady(true);
    });
    return () => {
      current = false;
    };
  }, [seen]);
  if (!ready) return <p>Being looked up ...</p>;
  return (
    <>
      {kept === null ? (
        <p class="book-waiting">No signal: only what waits on this device is listed.</p>
      ) : null}
      {KEPT_KINDS.map((kind) => {
        const entries = withWaiting(kind, (kept?.[kind] ?? []) as never, queue);
        return (
          <section key={kind} class="book-kept" aria-label={KEPT_WORDS[kind].many}>
            <h4>{KEPT_WORDS[kind].many}</h4>
            {entries.length === 0 ? (
              <p>{KEPT_WORDS[kind].none}</p>
            ) : (
              <ul class="book-entries">
                {entries.map((entry) => (
                  <OneKept
                    key={entry.id}
                    {...toldKept(kind, entry.doc as never, book, manner)}
                    waits={entry.waits}
                    onRemove={canEdit ? () => void theOutbox().remove(kind, entry as never) : null}
                  />
                ))}
              </ul>
            )}
          </section>
        );
      })}
    </>
  );
}
