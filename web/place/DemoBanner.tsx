import { useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { State } from "../state/state.ts";
import { UsePlace } from "./UsePlace.tsx";
import "./demo.css";

/** Stands over the page for as long as it shows invented weather, with the way out of it. */
export function DemoBanner({
  source,
  upload,
  nowMs,
  dispatch,
  ownId = "own",
  samplesId = "samples",
}: Pick<State, "source" | "upload" | "nowMs"> & {
  readonly dispatch: Dispatch;
  readonly ownId?: string;
  readonly samplesId?: string;
}) {
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  if (source?.kind !== "sample") return null;
  const close = () => {
    setOpen(false);
    button.current?.focus();
  };
  return (
    <>
      <aside class="demo" aria-label="Demonstration">
        <strong>Invented demonstration farm and weather</strong>
        <button
          type="button"
          class="aid"
          ref={button}
          aria-expanded={open}
          onClick={() => {
            setOpen(!open);
            // The part opens at the top of the page; the banner can be pressed from anywhere.
            if (!open) scrollTo({ top: 0 });
          }}
        >
          Use my place
        </button>
      </aside>
      {open ? (
        <UsePlace
          upload={upload}
          nowMs={nowMs}
          dispatch={dispatch}
          onClose={close}
          ownId={ownId}
          samplesId={samplesId}
        />
      ) : null}
    </>
  );
}
