import { useState } from "preact/hooks";
import type { State } from "../state/state.ts";
import { linkOf } from "./link-of.ts";
import { keepsAside, sendable } from "./use-link.ts";
import "./link.css";

const NO_KEPT = "The cut kept aside does not travel with it.";
const NO_FILE = "Your own weather file does not travel with it: send the file too.";

/** Copies the whole address of what is shown; where the browser does not let it, the address is there to be copied. */
export function CopyLink({ state }: { readonly state: State }) {
  const [copied, setCopied] = useState<{ readonly href: string; readonly done: boolean } | null>(null);
  const href = () => new URL(linkOf(sendable(state), true), location.href.replace(/[?#].*/, "")).href;
  const copy = async () => {
    const link = href();
    try {
      await navigator.clipboard.writeText(link);
      setCopied({ href: link, done: true });
    } catch {
      setCopied({ href: link, done: false });
    }
  };
  // What was copied is said only as long as it is what is shown.
  const said = copied !== null && copied.href === href() ? copied : null;
  const lacks = [state.source?.kind === "upload" ? NO_FILE : "", keepsAside(state) ? NO_KEPT : ""]
    .filter((text) => text !== "")
    .join(" ");
  return (
    <div class="copy-link">
      <button type="button" class="aid" onClick={copy}>
        Copy link
      </button>
      <p role="status">{said?.done ? `Link copied. ${lacks}`.trim() : ""}</p>
      {said?.done === false ? (
        <label>
          Copy it from here. {lacks}
          <input type="text" readOnly value={said.href} onFocus={(event) => event.currentTarget.select()} />
        </label>
      ) : null}
    </div>
  );
}

/** What of the opened link could not be used. Stays until it is closed. */
export function LinkNotice({ told }: { readonly told: readonly string[] }) {
  const [closed, setClosed] = useState(0);
  const open = told.slice(closed);
  return (
    <div class="notice" role="status">
      {open.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {open.length > 0 ? (
        <button type="button" onClick={() => setClosed(told.length)}>
          Close
        </button>
      ) : null}
    </div>
  );
}
