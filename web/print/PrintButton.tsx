import { useState } from "preact/hooks";
import { chancesDrawn, printPage } from "./paper.ts";

/** Prints board and course, then their tables; the browser's own command does the same. */
export function PrintButton() {
  const [busy, setBusy] = useState(false);
  return (
    <button
      type="button"
      class="aid"
      disabled={busy}
      title="Board and course on two sheets, then their tables"
      onClick={async () => {
        setBusy(true);
        await chancesDrawn();
        await printPage();
        setBusy(false);
      }}
    >
      {busy ? "Print: chances first ..." : "Print"}
    </button>
  );
}
