import type { ComponentChildren, Ref } from "preact";
import { useState } from "preact/hooks";

export interface FoldProps {
  readonly class?: string;
  readonly summary: ComponentChildren;
  /** Makes what is inside; called only while it is open. */
  readonly children: () => ComponentChildren;
  /** Where something else opens it too; absent = the fold keeps by itself whether it is open. */
  readonly opened?: { readonly open: boolean; readonly onOpen: (open: boolean) => void };
  readonly summaryRef?: Ref<HTMLElement>;
}

/**
 * A fold of the page whose inside is made when it is opened: a table of hundreds of rows costs nothing until then, and
 * is on paper only where a reader opened it.
 */
export function Fold({ class: name, summary, children, opened, summaryRef = null }: FoldProps) {
  const [own, setOwn] = useState(false);
  const { open, onOpen } = opened ?? { open: own, onOpen: setOwn };
  return (
    <details class={name} open={open} onToggle={(event) => onOpen(event.currentTarget.open)}>
      <summary ref={summaryRef}>{summary}</summary>
      {open ? children() : null}
    </details>
  );
}
