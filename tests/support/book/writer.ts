import { writeSync } from "node:fs";
import { openBook } from "../../../server/book/open-book.ts";
import { FIELD, READING, withField } from "./docs.ts";

/**
 * A program that writes into a book as fast as it can, and says each entry's id once the book has acknowledged it. Run
 * by tests in a process of its own: file, a name for its entries, how many, how many counts on a field that others
 * count on too.
 */

const [file = "", name = "", entries = "0", counts = "0"] = process.argv.slice(2);
const { book } = await openBook({ file, databaseUrl: null }, Date.now);
await withField(book);
/** Past buffers that end with the process. */
const say = (line: string) => writeSync(1, `${line}\n`);

for (let n = 0; n < Number(entries); n += 1) {
  const id = `${name}-${n}`;
  const { kind } = await book.make("readings", id, READING);
  if (kind !== "made") throw new Error(`${id}: ${kind}`);
  say(id);
}

for (let counted = 0; counted < Number(counts); ) {
  const present = await book.one("fields", "creek");
  const count = Number(present?.doc.notes ?? "0") + 1;
  const next = { ...(present?.doc ?? FIELD), notes: String(count) };
  const { kind } = await book.change("fields", "creek", present?.revision ?? 0, () => ({
    ok: true,
    value: next,
  }));
  if (kind === "changed") counted += 1;
}
say("done");
await book.close();
