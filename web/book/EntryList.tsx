import { useState } from "preact/hooks";
import type { Manner } from "../format/manner.ts";
import type { ShownKind } from "./book-data.ts";
import { KIND_WORDS } from "./book-words.ts";
import type { ShownEntry } from "./queue.ts";
import { toldEntry } from "./told-entry.ts";
import type { ShownBook } from "./use-book.ts";

export interface EntryListProps {
  readonly kind: ShownKind;
  readonly entries: readonly ShownEntry[];
  readonly book: ShownBook;
  readonly manner: Manner;
  readonly canEdit: boolean;
  readonly onEdit: (entry: ShownEntry) => void;
  readonly onRemove: (entry: ShownEntry) => void;
  /** What else can be done with an entry of this kind. */
  readonly more?: readonly { readonly label: string; readonly onUse: (entry: ShownEntry) => void }[];
}

/** Shown at once; the others on asking. */
const FIRST = 30;

/** The entries of one kind, each with what can be done with it. */
export function EntryList({
  kind,
  entries,
  book,
  manner,
  canEdit,
  onEdit,
  onRemove,
  more = [],
}: EntryListProps) {
  const [removing, setRemoving] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  // "No field yet: add one" is no word for somebody who may not.
  if (entries.length === 0) {
    const { none } = KIND_WORDS[kind];
    return <p>{canEdit ? none : `${none.split(/[:.]/)[0]}.`}</p>;
  }
  const shown = all ? entries : entries.slice(0, FIRST);
  return (
    <>
      <ul class="book-entries">
        {shown.map((entry) => {
          const { title, line } = toldEntry(kind, entry.doc, book, manner);
          const named = <span class="hidden"> {title}</span>;
          return (
            <li key={entry.id}>
              <div>
                <strong>{title}</strong>
                {entry.waits > 0 ? <span class="book-waits">not sent yet</span> : null}
                <p>{line}</p>
              </div>
              <div class="book-buttons">
                {more.map(({ label, onUse }) => (
                  <button type="button" class="aid" key={label} onClick={() => onUse(entry)}>
                    {label}
                    {named}
                  </button>
                ))}
                {canEdit ? (
                  <>
                    <button type="button" class="aid" onClick={() => onEdit(entry)}>
                      Edit{named}
                    </button>
                    {removing === entry.id ? (
                      <>
                        <button
                          type="button"
                          class="aid"
                          onClick={() => {
                            setRemoving(null);
                            onRemove(entry);
                          }}
                        >
                          Yes, remove{named}
                        </button>
                        <button type="button" class="aid" onClick={() => setRemoving(null)}>
                          No
                        </button>
                      </>
                    ) : (
                      <button type="button" class="aid" onClick={() => setRemoving(entry.id)}>
                        Remove{named}
                      </button>
                    )}
                  </>
                ) : null}
              </div>
            </li>
          );
        })}
      </ul>
      {shown.length < entries.length ? (
        <button type="button" class="aid" onClick={() => setAll(true)}>
          All {entries.length}
        </button>
      ) : null}
    </>
  );
}
