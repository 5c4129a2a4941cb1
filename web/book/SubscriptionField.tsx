import { useId, useState } from "preact/hooks";
import type { Session } from "./holder.ts";
import "./subscription.css";

interface SubscriptionProps {
  readonly label: string;
  /** Of the calendar, from the page's address. */
  readonly path: string;
  /** What whoever has the address can read. */
  readonly reads: string;
  readonly session: Session | null;
}

/** The address of a calendar, to be copied into a calendar program. */
export function SubscriptionField({ label, path, reads, session }: SubscriptionProps) {
  const id = useId();
  const [copied, setCopied] = useState(false);
  const token = session?.calendarToken ?? null;
  const href = new URL(`${path}${token === null ? "" : `?token=${token}`}`, document.baseURI).href;
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(href);
      setCopied(true);
    } catch {
      // The address stands there to be copied by hand.
    }
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <div class="book-copy">
        <input
          id={id}
          type="text"
          readOnly
          value={href}
          onFocus={({ currentTarget }) => currentTarget.select()}
        />
        <button type="button" class="aid" onClick={copy}>
          Copy
        </button>
      </div>
      <p class="hint" role="status">
        {copied ? "Copied." : token === null ? "" : `Whoever has this address can read ${reads}.`}
      </p>
    </div>
  );
}
