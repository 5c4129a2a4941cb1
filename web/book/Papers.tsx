import { useRef, useState } from "preact/hooks";
import { ErrorText } from "../panel/Field.tsx";
import { fetchJson } from "./book-data.ts";
import type { Session } from "./holder.ts";
import { SubscriptionField } from "./SubscriptionField.tsx";

interface PapersProps {
  readonly session: Session | null;
  readonly canEdit: boolean;
  readonly onChanged: () => void;
}

interface Imported {
  readonly added: number;
  readonly same: number;
  readonly removed: number;
  readonly backup: string | null;
}

type Said = { readonly good: string } | { readonly wrong: string };

const count = (n: number, one: string) => `${n} ${n === 1 ? one : `${one.replace(/y$/, "ie")}s`}`;

/** A book from a file: all of it or nothing. */
async function takeIn(file: File, mode: "add" | "replace"): Promise<Said> {
  const got = await fetchJson<Imported>(`api/book/import?mode=${mode}`, {
    method: "POST",
    body: file,
    headers: { "Content-Type": "application/json" },
    signal: AbortSignal.timeout(120_000),
  });
  if (!got.ok) return { wrong: `${file.name} was not taken in, nothing was changed: ${got.trouble.message}` };
  const { added, same, removed, backup } = got.value;
  const gone = removed > 0 ? `, ${count(removed, "entry")} removed` : "";
  const kept = backup === null ? "" : ` The book as it was before is kept as ${backup}.`;
  return { good: `${file.name}: ${count(added, "entry")} added, ${same} were there already${gone}.${kept}` };
}

/** The book on paper and elsewhere: export, tables, calendar, import, and the invented farm to try it with. */
export function Papers({ session, canEdit, onChanged }: PapersProps) {
  const [said, setSaid] = useState<Said | null>(null);
  const [file, setFile] = useState<File | null>(null);
  const [sure, setSure] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  const take = async (mode: "add" | "replace") => {
    if (file === null) return;
    const done = await takeIn(file, mode);
    setSaid(done);
    setSure(false);
    if ("good" in done) onChanged();
  };
  const copyDemo = async () => {
    const got = await fetchJson<{ copied: number; kept: number }>("api/book/copy-demo", { method: "POST" });
    setSaid(
      got.ok
        ? { good: `${count(got.value.copied, "entry")} copied, ${got.value.kept} were there already.` }
        : { wrong: `Nothing was copied: ${got.trouble.message}` },
    );
    if (got.ok) onChanged();
  };
  return (
    <div class="book-papers">
      <p class="book-links">
        <a href="api/book/export" download>
          Whole book (JSON)
        </a>
        <a href="api/book/readings.csv" download>
          Readings (CSV)
        </a>
        <a href="api/book/lots.csv" download>
          Lots (CSV)
        </a>
        <a href="api/book/due.ics" download>
          What is due (calendar file)
        </a>
      </p>
      <SubscriptionField
        label="Calendar subscription: what is due, in your calendar program"
        path="api/book/due.ics"
        reads="what is due"
        session={session}
      />
      {canEdit ? (
        <>
          <div class="field">
            <label for="book-import">A whole book (JSON) to take in</label>
            <input
              ref={input}
              id="book-import"
              type="file"
              accept=".json,application/json"
              onChange={({ currentTarget }) => {
                setFile(currentTarget.files?.[0] ?? null);
                setSaid(null);
                setSure(false);
              }}
            />
          </div>
          <div class="book-buttons">
            <button type="button" class="aid" disabled={file === null} onClick={() => take("add")}>
              Add it to this book
            </button>
            {sure ? (
              <button type="button" class="aid" onClick={() => take("replace")}>
                Yes: this book becomes what the file is
              </button>
            ) : (
              <button type="button" class="aid" disabled={file === null} onClick={() => setSure(true)}>
                Replace this book
              </button>
            )}
            <button type="button" class="aid" onClick={copyDemo}>
              Copy the invented farm into this book
            </button>
          </div>
        </>
      ) : null}
      <div role="status">
        {said === null ? null : "good" in said ? (
          <p>{said.good}</p>
        ) : (
          <ErrorText id="book-said" text={said.wrong} />
        )}
      </div>
    </div>
  );
}
