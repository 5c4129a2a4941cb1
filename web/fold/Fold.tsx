import type { ComponentChildren, Ref } from "preact";
import { useEffect, useState } from "preact/hooks";

export interface FoldProps {
  readonly class?: string;
  readonly summary: ComponentChildren;
  /** Makes what is inside; called only while it is open, or while the page is printed. */
  readonly children: () => ComponentChildren;
  /** Where something else opens it too; absent = the fold keeps by itself whether it is open. */
  readonly opened?: { readonly open: boolean; readonly onOpen: (open: boolean) => void };
  readonly summaryRef?: Ref<HTMLElement>;
}

/** True while the page is being printed: what is folded away on the screen belongs on paper. */
function usePrinting(): boolean {
  const [printing, setPrinting] = useState(() => matchMedia("print").matches);
  useEffect(() => {
    const media = matchMedia("print");
    const follow = () => setPrinting(media.matches);
    const before = () => setPrinting(true);
    const after = () => setPrinting(false);
    media.addEventListener("change", follow);
    addEventListener("beforeprint", before);
    addEventListener("afterprint", after);
    return () => {
      media.removeEventListener("change", follow);
      removeEventListener("beforeprint", before);
      removeEventListener("afterprint", after);
    };
  }, []);
  return printing;
}

/** A fold of the page whose inside is made when it is opened: a table of hundreds of rows costs nothing until then. */
export function Fold({ class: name, summary, children, opened, summaryRef = null }: FoldProps) {
  const [own, setOwn] = useState(false);
  const { open, onOpen } = opened ?? { open: own, onOpen: setOwn };
  const printing = usePrinting();
  const shown = open || printing;
  return (
    <details
      class={name}
      open={shown}
      onToggle={(event) => {
        // What only the printer opened is not opened by a reader.
        if (!printing) onOpen(event.currentTarget.open);
      }}
    >
      <summary ref={summaryRef}>{summary}</summary>
      {shown ? children() : null}
    </details>
  );
}
