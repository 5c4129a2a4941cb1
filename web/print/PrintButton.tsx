import { useState } from "preact/hooks";
import { printPage } from "./paper.ts";

/** Prints board, course and tables; the browser's own command does the same. */
export function PrintButton() {
  const [busy, setBusy] = useState(false);
  return (
    <button
      type="button"
      class="aid"
      disabled={busy}
      onClick={async () => {
        setBusy(true);
        await printPage();
        setBusy(false);
      }}
    >
      Print
    </button>
  );
}
