import { BOOK_LIMITS } from "../../model/book/index.ts";
import { limitIssue, type Outcome } from "../../model/limits.ts";
import { type ErrorBody, invalidRequest, plainProblem } from "../problem.ts";
import { DAYS_USUAL } from "../schemas/book/api.ts";
import type { Book, ImportMode } from "./book.ts";
import { dueOf } from "./due-of.ts";
import { BookFailure } from "./failure.ts";
import { readDocument } from "./read-document.ts";
import { recordOf } from "./record-of.ts";

/** The book from the command line: `book export`, `book import [add|replace]`, `book due [DAYS]`, `book record`. */

const WORDS = ["export", "import", "due", "record"] as const;

export type BookReply =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly body: ErrorBody };

export interface BookTools {
  readonly book: () => Promise<Book>;
  readonly nowMs: () => number;
  /** Takes what is too long to be held whole, piece by piece; left out = it comes with the reply. */
  readonly write?: (text: string) => Promise<void>;
}

const refuse = (body: ErrorBody): BookReply => ({ ok: false, body });

function readDays(word: string | undefined): Outcome<number> {
  const days = word === undefined ? DAYS_USUAL : Number(word);
  const { min, max } = BOOK_LIMITS.latestDays;
  // What was typed is said, not what it is as a number.
  if (Number.isNaN(days)) {
    const message = `DAYS: got "${word}", must be a number from ${min} to ${max}`;
    return { ok: false, issues: [{ path: "DAYS", code: "not-a-number", message }] };
  }
  const issue = limitIssue("DAYS", days, BOOK_LIMITS.latestDays);
  return issue === null ? { ok: true, value: days } : { ok: false, issues: [issue] };
}

async function importBook(mode: string, input: Uint8Array, tools: BookTools): Promise<BookReply> {
  if (mode !== "add" && mode !== "replace") {
    return refuse(plainProblem("unknown-word", `got "${mode}" after book import, must be add or replace`));
  }
  const document = readDocument(input);
  if (!document.ok) return refuse(invalidRequest(document.issues, "invalid-book"));
  const done = await (await tools.book()).takeIn(document.value, mode satisfies ImportMode);
  return done.ok
    ? { ok: true, text: JSON.stringify(done.value) }
    : refuse(invalidRequest(done.issues, "invalid-book"));
}

/** The book's document; nothing of it where it was written out on the way. */
async function exported(book: Book, { write }: BookTools): Promise<string> {
  const held: string[] = [];
  for await (const text of book.document()) {
    if (write) await write(text);
    else held.push(text);
  }
  return held.join("").trimEnd();
}

async function answer(
  words: readonly string[],
  readInput: () => Promise<Uint8Array>,
  tools: BookTools,
): Promise<BookReply> {
  const [what, more, ...rest] = words;
  const stranger = rest[0] ?? (what === "export" || what === "record" ? more : undefined);
  if (stranger !== undefined)
    return refuse(plainProblem("unknown-word", `got "${stranger}" after book ${what}`));
  switch (what) {
    case "export":
      return { ok: true, text: await exported(await tools.book(), tools) };
    case "import":
      return importBook(more ?? "add", await readInput(), tools);
    case "due": {
      const days = readDays(more);
      if (!days.ok) return refuse(invalidRequest(days.issues));
      const nowMs = tools.nowMs();
      const items = await dueOf(await tools.book(), nowMs, days.value);
      return {
        ok: true,
        text: JSON.stringify({ nowUtc: new Date(nowMs).toISOString(), days: days.value, items }),
      };
    }
    case "record": {
      const record = await recordOf(await tools.book());
      return record.ok
        ? { ok: true, text: JSON.stringify(record.value) }
        : refuse(invalidRequest(record.issues));
    }
    default: {
      const got = what === undefined ? "nothing" : `"${what}"`;
      return refuse(
        plainProblem("unknown-word", `got ${got} after book, must be one of ${WORDS.join(", ")}`),
      );
    }
  }
}

/** One call of the verb `book`, from the words after it. */
export async function bookCli(
  words: readonly string[],
  readInput: () => Promise<Uint8Array>,
  tools: BookTools,
): Promise<BookReply> {
  try {
    return await answer(words, readInput, tools);
  } catch (error) {
    if (error instanceof BookFailure) return refuse(error.body);
    throw error;
  }
}
