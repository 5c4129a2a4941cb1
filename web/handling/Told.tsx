import type { ComponentChildren } from "preact";
import { SCROLLS } from "../board/BoardTable.tsx";
import { Fold } from "../fold/Fold.tsx";
import "./words-table.css";
import { HeadRow } from "../table/HeadRow.tsx";

/** One topic of the fold: a heading, what it comes to, and whatever shows it. */
export function Topic({
  title,
  sentence,
  children,
}: {
  readonly title: string;
  readonly sentence?: string;
  readonly children: ComponentChildren;
}) {
  return (
    <section class="handling-topic" aria-label={title}>
      <h3>{title}</h3>
      {sentence === undefined ? null : (
        <p class="handling-says" aria-live="polite">
          {sentence}
        </p>
      )}
      {children}
    </section>
  );
}

/** What must be done or left, where it is decided: with its mark, so that it is no matter of colour. */
export function Warning({ children }: { readonly children: ComponentChildren }) {
  return (
    <p class="handling-caution">
      <svg class="triangle" viewBox="0 0 16 14" aria-hidden="true">
        <path d="M8 1 15 13H1z" />
        <path class="mark" d="M8 5v4M8 10.500v1.200" />
      </svg>
      <span>{children}</span>
    </p>
  );
}

export interface WordsTableProps {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** The row that applies; it also says so in words. */
  readonly applies?: number | null;
}

/** A table of words and numbers, the first cell of each row its head. */
export function WordsTable({ caption, heads, rows, applies = null }: WordsTableProps) {
  return (
    <section class="table-scroll" aria-label={caption} {...SCROLLS}>
      <table class="handling-table">
        <caption>{caption}</caption>
        <HeadRow heads={heads} />
        <tbody>
          {rows.map(([first, ...rest], i) => (
            <tr key={first} class={i === applies ? "applies" : undefined}>
              <th scope="row">
                {first}
                {i === applies ? <span class="handling-applies"> applies</span> : null}
              </th>
              {rest.map((cell, k) => (
                <td key={heads[k + 1]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The same, folded away under the picture and the sentence. */
export function FoldedTable({ title, ...table }: WordsTableProps & { readonly title: string }) {
  return (
    <Fold class="board-details" summary={title}>
      {() => <WordsTable {...table} />}
    </Fold>
  );
}
