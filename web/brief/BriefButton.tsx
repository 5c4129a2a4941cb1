import { useState } from "preact/hooks";
import type { FoldsProps } from "../app/Folds.tsx";
import type { State } from "../state/state.ts";

/** Whether chances are under work: a brief printed meanwhile would name another first place than the page a moment later. */
export function briefWaits({ picture, odds }: Pick<State, "picture" | "odds">): boolean {
  return picture !== null && picture.answer.odds === undefined && odds !== null;
}

/** Prints the adviser's brief on two sheets: routes, feed check, gate, cautions and sources. Its script comes when it is pressed. */
export function BriefButton({ state, picture, choice, manner }: Omit<FoldsProps, "dispatch" | "tries">) {
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState(false);
  if (picture === null) return null;
  const waiting = briefWaits(state);
  return (
    <p>
      <button
        type="button"
        class="aid"
        disabled={busy || waiting}
        title="Routes, feed check, what is settled, cautions and sources on two sheets"
        onClick={async () => {
          setBusy(true);
          setFailed(false);
          try {
            const { printBrief } = await import("./print-brief.tsx");
            await printBrief({
              picture,
              choice,
              manner,
              nowMs: state.nowMs,
              inputs: state.inputs,
              feed: state.feed,
              sampling: state.sampling,
            });
          } catch {
            setFailed(true);
          }
          setBusy(false);
        }}
      >
        Print the brief
      </button>{" "}
      {waiting ? <span>It waits for the chances, which are being worked out.</span> : null}
      {failed ? <span role="alert">It could not be fetched. Load the page again.</span> : null}
    </p>
  );
}
