import { describe, expect, test } from "vitest";
import type { Entry } from "../../../model/book/kinds.ts";
import type { Who } from "../../../web/book/holder.ts";
import { newId } from "../../../web/book/new-id.ts";
import { makeOutbox, type QueueStore } from "../../../web/book/outbox.ts";
import { type Change, type Queue, readQueue } from "../../../web/book/queue.ts";
import { requestOf, type Sent, sentOf } from "../../../web/book/send-change.ts";
import { waitsWords } from "../../../web/book/waits-words.ts";
import { fakeApp } from "../../support/app.ts";
import { emptyBook } from "../../support/book/books.ts";
import { FIELD, READING, SITE } from "../../support/book/docs.ts";

const nowMs = () => Date.parse("2026-07-01T12:00:00Z");

/** A device: what it keeps is text, as a browser's store copies it. */
function device(): QueueStore & { readonly held: () => Queue } {
  let text = "[]";
  const held = () => readQueue(JSON.parse(text)).queue;
  return {
    held,
    change: async (next) => {
      text = JSON.stringify(next(held()));
      return held();
    },
  };
}

/** The real routes on a real book, with a way to it that a test can cut. */
async function server() {
  const book = await emptyBook("sqlite");
  const app = fakeApp({ book: async () => book });
  const line = { up: true, loseAnswers: false, asked: [] as string[] };
  const send = async (change: Change): Promise<Sent> => {
    if (!line.up) return { kind: "wait", why: "no-signal", message: null };
    const { method, path, body } = requestOf(change);
    line.asked.push(`${method} ${path}`);
    const response = await app.request(`/${path}`, { method, ...(body === null ? {} : { body }) });
    // Taken by the server, and the answer is lost on the way.
    if (line.loseAnswers) return { kind: "wait", why: "no-signal", message: null };
    return sentOf(change, response.status, await response.json());
  };
  return { book, line, send };
}

describe("without a signal", () => {
  test("changes are kept in order, outlive the page, and are sent in order when it is back", async () => {
    const { book, line, send } = await server();
    const store = device();
    line.up = false;
    const outbox = makeOutbox({ store, send, nowMs });
    const site = await outbox.make("sites", SITE);
    const field = await outbox.make("fields", { ...FIELD, siteId: site });
    await outbox.make("readings", { ...READING, fieldId: field }, "r1");
    await outbox.flush();
    expect(waitsWords(outbox.state(), true)).toBe("Waits for signal (3).");
    // The page is opened anew, and has a signal.
    line.up = true;
    const again = makeOutbox({ store, send, nowMs });
    await again.flush();
    expect(line.asked).toEqual(["POST api/book/sites", "POST api/book/fields", "POST api/book/readings"]);
    expect((await book.one("readings", "r1"))?.doc).toMatchObject({ fieldId: field });
    expect(store.held()).toEqual([]);
    expect(waitsWords(again.state(), true)).toBeNull();
  });

  test("an answer that was lost doubles nothing: the retry is the same entry, once", async () => {
    const { book, line, send } = await server();
    const store = device();
    const outbox = makeOutbox({ store, send, nowMs });
    await outbox.make("sites", SITE, "home");
    await outbox.flush();
    line.loseAnswers = true;
    await outbox.make("fields", FIELD, "creek");
    await outbox.flush();
    await outbox.change("fields", { ...(await entryOf(book)), revision: 0 }, { ...FIELD, areaHa: 9 });
    await outbox.flush();
    expect(store.held()).toHaveLength(2);
    line.loseAnswers = false;
    await outbox.flush();
    expect(store.held()).toEqual([]);
    expect((await book.state()).counts.fields).toBe(1);
    expect(await entryOf(book)).toMatchObject({ revision: 2, doc: { areaHa: 9 } });
  });
});

const entryOf = async (book: Awaited<ReturnType<typeof emptyBook>>): Promise<Entry<"fields">> => {
  const entry = await book.one("fields", "creek");
  if (entry === null) throw new Error("no field");
  return entry;
};

test("two people change one field: the second is told with both versions, and nothing is written over", async () => {
  const { book, send } = await server();
  await book.make("sites", "home", SITE);
  const seen = (await book.make("fields", "creek", FIELD)) as { readonly entry: Entry<"fields"> };
  await book.change("fields", "creek", 1, () => ({ ok: true, value: { ...FIELD, areaHa: 20 } }));
  const store = device();
  const outbox = makeOutbox({ store, send, nowMs });
  await outbox.change("fields", seen.entry, { ...FIELD, areaHa: 9 });
  await outbox.make("sites", SITE, "other");
  await outbox.flush();
  expect(store.held()).toMatchObject([
    { doc: { areaHa: 9 }, held: { kind: "conflict", entry: { revision: 2, doc: { areaHa: 20 } } } },
  ]);
  // What does not depend on it went on.
  expect(await book.one("sites", "other")).not.toBeNull();
  expect((await entryOf(book)).doc.areaHa).toBe(20);
  expect(waitsWords(outbox.state(), true)).toBe("1 needs a look below.");
});

test("another book behind the same address: what it lacks is told and kept, and what it can take it takes", async () => {
  const { send } = await server();
  const store = device();
  const outbox = makeOutbox({ store, send, nowMs });
  await outbox.make("readings", READING, "r1");
  await outbox.flush();
  expect(store.held()).toMatchObject([
    { held: { kind: "refused", issues: [{ path: "doc.fieldId", code: "unknown-reference" }] } },
  ]);
});

test.each([
  [401, { error: "unauthorized", message: "m" }, { kind: "wait", why: "sign-in" }],
  [403, { error: "view-only", message: "m" }, { kind: "wait", why: "view-only" }],
  [429, { error: "busy", message: "m" }, { kind: "wait", why: "later" }],
  [507, { error: "book-full", message: "m" }, { kind: "wait", why: "later" }],
  [200, "<html>", { kind: "wait", why: "no-signal" }],
  [404, "<html>", { kind: "wait", why: "no-signal" }],
  [404, { error: "not-found", message: "m" }, { kind: "held", held: { kind: "missing" } }],
  [413, { error: "too-large", message: "m" }, { kind: "held", held: { kind: "refused" } }],
])("status %d with %j", (status, body, sent) => {
  const change: Change = {
    key: "k",
    kind: "fields",
    id: "creek",
    act: "change",
    doc: FIELD,
    revision: 1,
    madeUtc: "2026-07-01T12:00:00Z",
    held: null,
  };
  expect(sentOf(change, status, body)).toMatchObject(sent);
});

test("ids are random UUIDs of version 4", () => {
  const ids = Array.from({ length: 50 }, newId);
  for (const id of ids)
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(new Set(ids).size).toBe(50);
});

test("a shared device: each key sees, sends and decides its own changes alone", async () => {
  const { book, line, send } = await server();
  await book.make("sites", "home", SITE);
  const store = device();
  let who: Who = { kind: "holder", name: "anna", mayEdit: true };
  const outbox = makeOutbox({ store, send, nowMs, who: () => who });
  line.up = false;
  await outbox.make("fields", { ...FIELD, name: "Anna's" }, "of-anna");
  await outbox.flush();
  who = { kind: "holder", name: "bert", mayEdit: true };
  line.up = true;
  await outbox.load();
  expect(outbox.state()).toMatchObject({ queue: [], others: 1 });
  await outbox.make("fields", { ...FIELD, name: "Bert's" }, "of-bert");
  await outbox.decide(() => []);
  await outbox.flush();
  expect([await book.one("fields", "of-anna"), store.held().length]).toEqual([null, 1]);
  who = { kind: "nobody" };
  await outbox.flush();
  expect(store.held()[0]).toMatchObject({ id: "of-anna", holder: "anna" });
  who = { kind: "holder", name: "anna", mayEdit: true };
  await outbox.flush();
  expect((await book.one("fields", "of-anna"))?.doc.name).toBe("Anna's");
  expect([store.held(), outbox.state().others]).toEqual([[], 0]);
});
