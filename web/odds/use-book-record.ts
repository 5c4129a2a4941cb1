import { useEffect, useState } from "preact/hooks";
import type { RecordAnswer } from "../../model/odds/record-answer.ts";
import { type BookTrouble, fetchJson } from "../book/book-data.ts";
import { isKeyNeeded, onKey } from "../book/key-needed.ts";
import { isSigningOut } from "../book/session.ts";

/** What is known of the book's record. */
export type BookRecord =
  | { readonly kind: "asked" }
  | { readonly kind: "there"; readonly record: RecordAnswer }
  /** There is no book to be read, and why. */
  | { readonly kind: "none"; readonly why: string };

const WHY: Readonly<Record<BookTrouble["kind"], (message: string) => string>> = {
  "no-signal": () => "The book cannot be reached.",
  "sign-in": () => "The book asks for a key: sign in to see its record.",
  server: (message) => `The book's record cannot be read: ${message.replace(/\.$/, "")}.`,
};

/** Asks for the record of the server's book: at first, when a signal comes back, and when somebody signed in. */
export function useBookRecord(): BookRecord {
  const [found, setFound] = useState<BookRecord>({ kind: "asked" });
  useEffect(() => {
    let gone = false;
    const ask = async () => {
      if (isSigningOut()) {
        setFound({ kind: "none", why: WHY["sign-in"]("") });
        return;
      }
      const got = await fetchJson<RecordAnswer>("api/book/record");
      if (gone) return;
      if (!got.ok) setFound({ kind: "none", why: WHY[got.trouble.kind](got.trouble.message) });
      else setFound({ kind: "there", record: got.value });
    };
    const again = () => void ask();
    void ask();
    addEventListener("online", again);
    const stop = onKey(() => {
      if (!isKeyNeeded()) again();
    });
    return () => {
      gone = true;
      removeEventListener("online", again);
      stop();
    };
  }, []);
  return found;
}
