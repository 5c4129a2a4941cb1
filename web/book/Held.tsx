import type { Issue } from "../../model/limits.ts";
import type { Manner } from "../format/manner.ts";
import { sentenceCase } from "../format/words.ts";
import { SHOWN_KINDS, type ShownKind } from "./book-data.ts";
import { KIND_WORDS } from "./book-words.ts";
import { differences, type NameOf } from "./differences.ts";
import { issueWords } from "./issue-words.ts";
import {
  type Change,
  canMerge,
  chainOf,
  giveUp,
  type Held as HeldReason,
  keepBoth,
  keepMine,
  type Queue,
} from "./queue.ts";
import { type Names, toldEntry, zoneOf } from "./told-entry.ts";
import type { ShownBook } from "./use-book.ts";

interface HeldProps {
  readonly queue: Queue;
  readonly book: ShownBook;
  readonly manner: Manner;
  /** A key that may only look decides nothing. */
  readonly canEdit: boolean;
  readonly onDecide: (next: (queue: Queue) => Queue) => void;
  /** Opens the form of a change that was refused. */
  readonly onMend: (change: Change) => void;
}

const shownKind = (change: Change): ShownKind | undefined => SHOWN_KINDS.find((kind) => kind === change.kind);

function Versions({
  change,
  last,
  theirs,
  book,
  manner,
}: Pick<HeldProps, "book" | "manner"> & {
  readonly change: Change;
  readonly last: Change;
  readonly theirs: { readonly deleted: boolean; readonly doc: Change["doc"] };
}) {
  const kind = shownKind(change);
  if (kind === undefined) return null;
  const zone = zoneOf(last.doc as Names, book, manner.zone);
  const nameOf: NameOf = ({ kind: of }, id) => {
    const entry = book[of].find((one) => one.id === id);
    return entry ? toldEntry(of, entry.doc, book, manner).title : id;
  };
  const rows = differences(kind, last.doc, theirs.doc, { ...manner, zone }, nameOf);
  return (
    <table class="book-versions">
      <caption>The two versions, where they differ</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Yours</th>
          <th scope="col">In the book now</th>
        </tr>
      </thead>
      <tbody>
        {last.act === "remove" || theirs.deleted ? (
          <tr>
            <th scope="row">The entry</th>
            <td>{last.act === "remove" ? "removed" : "kept"}</td>
            <td>{theirs.deleted ? "removed" : "kept"}</td>
          </tr>
        ) : null}
        {rows.map(({ label, mine, theirs: other }) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td>{mine}</td>
            <td>{other}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What was wrong with a refused change: each thing by itself, else the one sentence of the answer. */
function refusalsOf(held: HeldReason | null): readonly Issue[] {
  if (held?.kind !== "refused") return [];
  return held.issues.length > 0 ? held.issues : [{ path: "", code: "refused", message: held.message }];
}

/** Changes that a person has to look at: both versions, and the choice between them. Nothing goes by itself. */
export function Held({ queue, book, manner, canEdit, onDecide, onMend }: HeldProps) {
  const held = queue.filter((change) => change.held !== null);
  if (held.length === 0) return null;
  return (
    <section class="book-held" aria-label="To be decided">
      <h3>To be decided</h3>
      {held.map((change) => {
        const kind = shownKind(change);
        const last = chainOf(queue, change.key).at(-1) ?? change;
        const what = kind
          ? `${sentenceCase(KIND_WORDS[kind].one)}: ${toldEntry(kind, last.doc, book, manner).title}`
          : sentenceCase(change.kind.replaceAll("-", " "));
        const reason = change.held;
        return (
          <article key={change.key} class="book-held-one" aria-label={what}>
            <h4>{what}</h4>
            {reason?.kind === "conflict" ? (
              <>
                <p>
                  {reason.entry.deleted
                    ? "Somebody removed it meanwhile."
                    : "Somebody else changed it meanwhile."}{" "}
                  Nothing was written over: choose.
                </p>
                <p class="hint">
                  {canMerge(queue, change.key)
                    ? "Put together, the lists hold what both entered; of a line that both changed, yours."
                    : last.act === "change" && !reason.entry.deleted
                      ? "Both changed the same line of a list: keep one version, and enter there what the other had."
                      : null}
                </p>
                <Versions change={change} last={last} theirs={reason.entry} book={book} manner={manner} />
              </>
            ) : reason?.kind === "missing" ? (
              <p>This server's book has no such entry. Yours is kept here: put it in anew, or give it up.</p>
            ) : (
              <>
                <p class="book-wrong">The book does not take it as it is:</p>
                <ul>
                  {refusalsOf(reason).map((issue) => (
                    <li key={`${issue.path} ${issue.message}`} class="book-wrong">
                      {issueWords(kind, issue, {
                        ...manner,
                        zone: zoneOf(last.doc as Names, book, manner.zone),
                      })}
                    </li>
                  ))}
                </ul>
              </>
            )}
            {canEdit ? null : <p>To decide, sign in with a key that may change the book.</p>}
            <div class="book-buttons" hidden={!canEdit}>
              {reason?.kind === "refused" && kind && last.act !== "remove" ? (
                <button type="button" class="aid" onClick={() => onMend(change)}>
                  Mend it
                </button>
              ) : null}
              {canMerge(queue, change.key) ? (
                <button
                  type="button"
                  class="aid"
                  onClick={() => onDecide((now) => keepBoth(now, change.key))}
                >
                  Put both together
                </button>
              ) : null}
              <button type="button" class="aid" onClick={() => onDecide((now) => keepMine(now, change.key))}>
                {reason?.kind === "conflict"
                  ? "Keep yours"
                  : reason?.kind === "missing"
                    ? "Put it in anew"
                    : "Send it again"}
              </button>
              <button type="button" class="aid" onClick={() => onDecide((now) => giveUp(now, change.key))}>
                {reason?.kind === "conflict" ? "Keep what is in the book" : "Give yours up"}
              </button>
            </div>
          </article>
        );
      })}
    </section>
  );
}
