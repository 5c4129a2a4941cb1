import { expect, test } from "vitest";
import { bookCli } from "../../server/book/book-cli.ts";
import { dueAnswer, imported } from "../../server/schemas/book/api.ts";
import { recordResult } from "../../server/schemas/record.ts";
import { emptyBook, ticking } from "../support/book/books.ts";
import { LOT, withField } from "../support/book/docs.ts";

const nothing = async () => new Uint8Array();

async function callOn(book: Awaited<ReturnType<typeof emptyBook>>, words: string[], input = "") {
  const tools = { book: async () => book, nowMs: ticking() };
  const reply = await bookCli(words, async () => new TextEncoder().encode(input), tools);
  return reply.ok ? { text: reply.text, error: null } : { text: "", error: reply.body.error };
}

test("a book goes out and comes in on the command line, and says what is due", async () => {
  const book = await withField(await emptyBook("sqlite"));
  await book.make("lots", "l1", LOT);
  const { text } = await callOn(book, ["export"]);
  const copy = await emptyBook("sqlite");
  const taken = await callOn(copy, ["import"], text);
  expect(imported.parse(JSON.parse(taken.text))).toMatchObject({ added: 3 });
  expect(imported.parse(JSON.parse((await callOn(copy, ["import", "replace"], text)).text)).removed).toBe(3);
  const due = dueAnswer.parse(JSON.parse((await callOn(copy, ["due", "7"])).text));
  expect(due.items.map(({ id }) => id)).toContain("probe.l1");
  const record = recordResult.parse(JSON.parse((await callOn(copy, ["record"])).text));
  expect(record.counts).toEqual({ moisture: 0, chances: 0, days: 0 });
});

test.each([
  [[], "", "unknown-word"],
  [["burn"], "", "unknown-word"],
  [["export", "more"], "", "unknown-word"],
  [["record", "more"], "", "unknown-word"],
  [["due", "0"], "", "invalid-request"],
  [["due", "x"], "", "invalid-request"],
  [["import", "over"], "{}", "unknown-word"],
  [["import"], "{", "invalid-book"],
])("book %j with %j: %s", async (words, input, error) => {
  expect((await callOn(await emptyBook("sqlite"), words, input)).error).toBe(error);
});

test("a book that cannot be opened is said", async () => {
  const { BookFailure } = await import("../../server/book/failure.ts");
  const book = async () => {
    throw new BookFailure(503, "book-unavailable", "no book");
  };
  const reply = await bookCli(["export"], nothing, { book, nowMs: Date.now });
  expect(reply.ok ? "" : reply.body.error).toBe("book-unavailable");
});
