import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { sql } from "kysely";
import { describe, expect, test } from "vitest";
import { migrateBook } from "../../../server/book/migrate.ts";
import { readDocument } from "../../../server/book/read-document.ts";
import { storedBook } from "../../../server/book/stored-book.ts";
import { bookMigrations } from "../../../server/book/tables.ts";
import { lotDoc } from "../../../server/schemas/book/work.ts";
import { ENGINES, emptyBook, emptyEngine, ticking, wholeDocument } from "../../support/book/books.ts";
import { CUT, FIELD, LOT, READING, SITE, withField } from "../../support/book/docs.ts";

const NEW_COLUMN = {
  async up(db: import("kysely").Kysely<unknown>) {
    await db.schema.alterTable("entries").addColumn("extra", "text").execute();
  },
};

const bytes = (text: string) => new TextEncoder().encode(text);
const stripped = (document: string) => document.replace(/"exportedUtc":"[^"]*"/, "");

function entriesOf(document: string) {
  const read = readDocument(bytes(document));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

describe.each(ENGINES)("the book on %s", (engine) => {
  test("an entry is made, read, changed and deleted, and its revision rises", async () => {
    const book = await withField(await emptyBook(engine));
    const made = await book.one("fields", "creek");
    expect(made).toMatchObject({ id: "creek", revision: 1, deleted: false, doc: FIELD });
    expect(made?.createdUtc).toBe(made?.changedUtc);

    const renamed = { ...FIELD, name: "Brook field", notes: "wet by the brook" };
    const changed = await book.change("fields", "creek", 1, () => ({ ok: true, value: renamed }));
    expect(changed).toMatchObject({ kind: "changed", entry: { revision: 2, doc: renamed } });
    expect(await book.remove("fields", "creek", 2)).toMatchObject({
      kind: "changed",
      entry: { revision: 3, deleted: true, doc: renamed },
    });
    const list = await book.list("fields", { limit: 10 });
    expect(list).toEqual({ entries: [], next: null });
    expect((await book.list("fields", { limit: 10, deleted: true })).entries).toHaveLength(1);
    expect((await book.state()).counts).toMatchObject({ sites: 1, fields: 0 });
  });

  test("a place stays while fields are on its clock", async () => {
    const book = await withField(await emptyBook(engine));
    const refused = await book.remove("sites", "home", 1);
    expect(refused).toMatchObject({ kind: "invalid", issues: [{ path: "id", code: "in-use" }] });
    await book.remove("fields", "creek", 1);
    expect(await book.remove("sites", "home", 1)).toMatchObject({ kind: "changed" });
    expect([(await book.all("sites")).length, (await book.all("sites", true)).length]).toEqual([0, 1]);
  });

  test("the same creation twice is one entry; another under its id is told, and changes nothing", async () => {
    const book = await withField(await emptyBook(engine));
    expect((await book.make("readings", "r1", READING)).kind).toBe("made");
    expect((await book.make("readings", "r1", { ...READING })).kind).toBe("same");
    const other = await book.make("readings", "r1", { ...READING, moistureWb: 0.2 });
    expect(other).toMatchObject({ kind: "stale", entry: { doc: READING, revision: 1 } });
    // The retry of a creation that was corrected meanwhile is still known.
    await book.change("readings", "r1", 1, (doc) => ({ ok: true, value: { ...doc, moistureWb: 0.33 } }));
    expect(await book.make("readings", "r1", READING)).toMatchObject({
      kind: "same",
      entry: { revision: 2, doc: { moistureWb: 0.33 } },
    });
    expect((await book.list("readings", { limit: 10 })).entries).toHaveLength(1);
  });

  test("two people change one field: the second is told, and nothing is lost", async () => {
    const book = await withField(await emptyBook(engine));
    const wishes = ["north", "south"].map((notes) =>
      book.change("fields", "creek", 1, (doc) => ({ ok: true, value: { ...doc, notes } })),
    );
    const results = await Promise.all(wishes);
    expect(results.map(({ kind }) => kind).sort()).toEqual(["changed", "stale"]);
    const stands = await book.one("fields", "creek");
    const won = results.find(({ kind }) => kind === "changed");
    expect(won).toMatchObject({ entry: { doc: { notes: stands?.doc.notes } } });
    expect(results.find(({ kind }) => kind === "stale")).toMatchObject({ entry: { revision: 2 } });
    // Sent once more because the answer was lost: no conflict with oneself.
    const again = await book.change("fields", "creek", 1, (doc) => ({ ok: true, value: { ...doc } }));
    expect(again).toMatchObject({ kind: "same", entry: { revision: 2 } });
  });

  test("twenty creations of one id at once are one entry", async () => {
    const book = await withField(await emptyBook(engine));
    const made = await Promise.all(Array.from({ length: 20 }, () => book.make("readings", "r1", READING)));
    expect(made.filter(({ kind }) => kind === "made")).toHaveLength(1);
    expect(made.filter(({ kind }) => kind === "same")).toHaveLength(19);
  });

  test("a document names only what the book holds or held", async () => {
    const book = await withField(await emptyBook(engine));
    const lost = await book.make("readings", "r1", { ...READING, fieldId: "nowhere" });
    expect(lost).toMatchObject({
      kind: "invalid",
      issues: [{ path: "doc.fieldId", code: "unknown-reference" }],
    });
    await book.remove("fields", "creek", 1);
    expect((await book.make("readings", "r2", READING)).kind).toBe("made");
  });

  test("nonsense across keys is refused when it is made and changed; an import takes it as it was kept", async () => {
    const book = await withField(await emptyBook(engine));
    const bad = { ...LOT, route: "wrapped-bales", wrappedUtc: "2026-06-01T20:00:00Z" } as const;
    const refused = { kind: "invalid", issues: [{ path: "doc.wrappedUtc", code: "out-of-order" }] };
    expect(await book.make("lots", "l1", bad)).toMatchObject(refused);
    await book.make("lots", "l1", LOT);
    expect(await book.change("lots", "l1", 1, () => ({ ok: true, value: bad }))).toMatchObject(refused);
    expect((await book.one("lots", "l1"))?.doc).toEqual(LOT);

    const baled = (machineId: string) => ({ ...CUT, operations: [{ kind: "bale", machineId } as const] });
    // A farm that keeps no machines may name one; one that does names its own.
    expect((await book.make("cuts", "c1", baled("lent"))).kind).toBe("made");
    await book.make("machines", "baler", { name: "Baler", kind: "baler" });
    expect((await book.make("cuts", "c2", baled("baler"))).kind).toBe("made");
    expect(await book.make("cuts", "c3", baled("lent"))).toMatchObject({
      kind: "invalid",
      issues: [{ path: "doc.operations[0].machineId", code: "unknown-reference" }],
    });
    const noted = await book.change("cuts", "c1", 1, (doc) => ({ ok: true, value: { ...doc, notes: "x" } }));
    expect(noted.kind).toBe("changed");

    const older = (await wholeDocument(book)).replace('"storedUtc":"2026-07-01', '"storedUtc":"2126-07-01');
    const copy = await emptyBook(engine);
    expect(await copy.takeIn(entriesOf(older), "add")).toMatchObject({ ok: true, value: { added: 6 } });
    expect(stripped(await wholeDocument(copy))).toBe(stripped(older));
  });

  test("what names a cut is of its field and stored after it; no new field at a place that was removed", async () => {
    const book = await withField(await emptyBook(engine));
    await book.make("fields", "hill", { ...FIELD, name: "Hill" });
    await book.make("cuts", "c1", { ...CUT, cutUtc: "2026-06-28T14:00:00Z" });
    const lot = { ...LOT, cutId: "c1", storedUtc: "2026-06-29T14:00:00Z" };
    const codes = async (id: string, part: Partial<typeof LOT>) => {
      const made = await book.make("lots", id, { ...lot, ...part });
      return made.kind === "invalid" ? made.issues.map(({ path, code }) => `${path} ${code}`) : made.kind;
    };
    expect(await codes("l1", { storedUtc: "2026-06-27T14:00:00Z" })).toEqual(["doc.storedUtc out-of-order"]);
    expect(await codes("l1", { fieldId: "hill" })).toEqual(["doc.fieldId not-of-its-cut"]);
    expect(await codes("l1", { fieldId: null })).toBe("made");
    const other = await book.make("readings", "r1", { ...READING, fieldId: "hill", cutId: "c1" });
    expect(other).toMatchObject({ kind: "invalid", issues: [{ code: "not-of-its-cut" }] });

    await book.make("sites", "gone", SITE);
    await book.remove("sites", "gone", 1);
    const at = await book.make("fields", "new", { ...FIELD, siteId: "gone" });
    expect(at).toMatchObject({
      kind: "invalid",
      issues: [{ path: "doc.siteId", code: "removed-reference" }],
    });
  });

  test("lists: by field and time, page by page, both ways, the same on every engine", async () => {
    const book = await withField(await emptyBook(engine));
    await book.make("fields", "hill", { ...FIELD, name: "Hill" });
    // Ids whose order depends on the language when a database sorts by one.
    const ids = ["a", "B", "c", "D", "a-1", "a.1", "a_1", "Z"];
    for (const id of ids) await book.make("readings", id, READING);
    await book.make("readings", "later", { ...READING, atUtc: "2026-07-01T18:00:00.500Z" });
    await book.make("readings", "early", { ...READING, atUtc: "2026-07-01T06:00Z" });
    await book.make("readings", "other", { ...READING, fieldId: "hill" });
    const sorted = ["early", ...[...ids].sort(), "later"];

    const seen: string[] = [];
    let after: { atUtc: string; id: string } | undefined;
    for (let page = 0; page < 10; page += 1) {
      const { entries, next } = await book.list("readings", { fieldId: "creek", limit: 3, after });
      seen.push(...entries.map(({ id }) => id));
      if (next === null) break;
      after = next;
    }
    expect(seen).toEqual(sorted);
    const back = await book.list("readings", { fieldId: "creek", limit: 20, newestFirst: true });
    expect(back.entries.map(({ id }) => id)).toEqual([...sorted].reverse());
    const noon = await book.list("readings", {
      fromUtc: "2026-07-01T18:00:00Z",
      toUtc: "2026-07-01T18:00:00.200Z",
      limit: 20,
    });
    expect(noon.entries).toHaveLength(ids.length + 1);
  });

  test("what is heavy comes with the one entry, not with the list", async () => {
    const book = await withField(await emptyBook(engine));
    const request = { weather: { hours: [1, 2, 3] } };
    const doc = {
      fieldId: "creek",
      issuedUtc: "2026-07-01T12:00:00Z",
      modelVersion: "1",
      verb: "drydown",
      request,
    } as const;
    await book.make("forecasts", "f1", doc);
    const listed = (await book.list("forecasts", { limit: 5 })).entries[0];
    expect(listed?.doc).not.toHaveProperty("request");
    expect((await book.list("forecasts", { limit: 5, whole: true })).entries[0]?.doc).toEqual(doc);
    expect((await book.one("forecasts", "f1"))?.doc).toEqual(doc);
    expect((await book.make("forecasts", "f1", doc)).kind).toBe("same");
  });

  test("export and import: each entry is the same JSON after a round trip, tombstones and late retries included", async () => {
    const book = await withField(await emptyBook(engine));
    await book.make("cuts", "c1", { ...CUT, operations: [{ kind: "bale", plannedUtc: null }] });
    const { name, ...lot } = LOT;
    const notes = 'a\nb\t"ü" 草 \u{1f33e}';
    // As the API writes it: keys in the order of the schema.
    await book.make("lots", "l1", lotDoc.parse({ name, cutId: "c1", ...lot, notes, tonnes: 0.1 + 0.2 }));
    await book.make("readings", "r1", READING);
    await book.change("readings", "r1", 1, (doc) => ({ ok: true, value: { ...doc, moistureWb: 1 / 3 } }));
    await book.make("readings", "gone", READING);
    await book.remove("readings", "gone", 1);
    const document = await wholeDocument(book);

    for (const to of ENGINES) {
      const copy = await emptyBook(to);
      const taken = await copy.takeIn(entriesOf(document), "add");
      expect(taken).toMatchObject({ ok: true, value: { added: 6, same: 0 } });
      expect(stripped(await wholeDocument(copy))).toBe(stripped(document));
      expect((await copy.make("readings", "r1", READING)).kind).toBe("same");
      // Once more: nothing is added.
      expect(await copy.takeIn(entriesOf(document), "add")).toMatchObject({
        ok: true,
        value: { added: 0, same: 6 },
      });
    }
  });

  test("an import that clashes or names strangers changes nothing; a replacement keeps a backup", async () => {
    const nowMs = ticking();
    const opened = await emptyEngine(engine, { nowMs });
    await migrateBook(opened);
    const book = await withField(storedBook(opened, nowMs));
    const document = await wholeDocument(book);
    await book.change("fields", "creek", 1, (doc) => ({ ok: true, value: { ...doc, notes: "kept" } }));
    const before = stripped(await wholeDocument(book));

    const clash = await book.takeIn(entriesOf(document), "add");
    expect(clash.ok ? [] : clash.issues.map(({ code }) => code)).toEqual(["conflict"]);
    const lost = entriesOf(document.replace('"siteId":"home"', '"siteId":"nowhere"'));
    for (const mode of ["add", "replace"] as const) {
      const stranger = await book.takeIn(lost, mode);
      expect(stranger.ok ? [] : stranger.issues[0]?.code).toBe("unknown-reference");
    }
    expect(stripped(await wholeDocument(book))).toBe(before);

    const replaced = await book.takeIn(entriesOf(document), "replace");
    expect(replaced).toMatchObject({ ok: true, value: { added: 2, removed: 2 } });
    expect(stripped(await wholeDocument(book))).toBe(stripped(document));
    expect(replaced.ok ? replaced.value.backup : null).toMatch(/^book-before-replacement[^/]*$/);
    // One backup, of the replacement that was done; its owner's alone, as the book is.
    const backups = readdirSync(opened.folder).filter((name) => name.includes("before-replacement"));
    expect(backups).toHaveLength(1);
    expect(statSync(join(opened.folder, backups[0] ?? "")).mode & 0o777).toBe(0o600);
  });

  test("before a migration of a book that is there, it is backed up; a newer book is refused and left alone", async () => {
    const nowMs = ticking();
    const opened = await emptyEngine(engine, { nowMs });
    expect(await migrateBook(opened)).toBeNull();
    await withField(storedBook(opened, nowMs));
    expect(await migrateBook(opened)).toBeNull();
    const newer = { ...bookMigrations(engine), "0002-extra": NEW_COLUMN };
    const backup = await migrateBook(opened, newer);
    expect(backup).toContain("before-0002-extra");
    expect(readdirSync(opened.folder).some((name) => name.includes("before-0002-extra"))).toBe(true);
    if (engine === "postgresql") {
      const copy = await emptyBook("sqlite");
      expect((await copy.takeIn(entriesOf(readFileSync(backup ?? "", "utf8")), "add")).ok).toBe(true);
      expect((await copy.one("fields", "creek"))?.doc).toEqual(FIELD);
    }
    expect((await storedBook(opened, nowMs).one("fields", "creek"))?.doc).toEqual(FIELD);
    await expect(migrateBook(await opened.again())).rejects.toThrow('newer Swathclock (it has "0002-extra")');
  });
});

test("a book of more than one file takes is backed up in several, each of which is taken in again", async () => {
  const nowMs = ticking();
  const opened = await emptyEngine("postgresql", { nowMs, partBytes: 6000 });
  await migrateBook(opened);
  const book = await withField(storedBook(opened, nowMs));
  for (const id of ["a", "b", "c"]) {
    await book.make("readings", id, { ...READING, notes: "x".repeat(2500) });
  }
  const whole = stripped(await wholeDocument(book));
  const backup = await migrateBook(opened, { ...bookMigrations("postgresql"), "0002-extra": NEW_COLUMN });
  expect(backup).toContain("(3 files)");
  const files = readdirSync(opened.folder).sort();
  expect(files.map((name) => name.replace(/^.*Z/, ""))).toEqual([".json", ".part2.json", ".part3.json"]);
  const copy = await emptyBook("sqlite");
  for (const name of files) {
    const { size, mode } = statSync(join(opened.folder, name));
    expect([size <= 6000, mode & 0o777]).toEqual([true, 0o600]);
    const part = entriesOf(readFileSync(join(opened.folder, name), "utf8"));
    expect((await copy.takeIn(part, "add")).ok).toBe(true);
  }
  expect(stripped(await wholeDocument(copy))).toBe(whole);
});

test.each(ENGINES)(
  "%s: an export is of one moment, and a reader who takes long holds up nobody",
  async (engine) => {
    const nowMs = ticking();
    const opened = await emptyEngine(engine, { nowMs });
    await migrateBook(opened);
    const book = await withField(storedBook(opened, nowMs));
    for (const id of ["a", "b", "c"]) {
      await book.make("readings", id, { ...READING, notes: "x".repeat(40_000) });
    }
    const before = await wholeDocument(book);
    const pieces = book.document()[Symbol.asyncIterator]();
    const first = await pieces.next();
    expect(first.done).not.toBe(true);
    // The reader waits in the middle; the book is written meanwhile.
    expect((await book.make("readings", "late", READING)).kind).toBe("made");
    expect((await book.remove("readings", "c", 1)).kind).toBe("changed");
    let text = first.done ? "" : first.value;
    for (let next = await pieces.next(); !next.done; next = await pieces.next()) text += next.value;
    expect(stripped(text)).toBe(stripped(before));
    expect(await wholeDocument(book)).toContain('"id":"late"');
  },
);

// Two connections of one process to one file would wait for each other: for a file, the writers of lasting.test.ts do it.
test("two programs that start on an empty database at once both find the schema", async () => {
  const opened = await emptyEngine("postgresql");
  const other = await opened.again();
  await Promise.all([migrateBook(opened), migrateBook(other)]);
  const nowMs = ticking();
  await storedBook(opened, nowMs).make("sites", "home", SITE);
  expect((await storedBook(other, nowMs).one("sites", "home"))?.doc).toEqual(SITE);
});

test("a document that is broken, newer or no book says why", () => {
  const good = { format: "swathclock-book", version: 1, exportedUtc: "2026-07-01T00:00:00Z", entries: {} };
  const codeOf = (value: unknown) => {
    const read = readDocument(bytes(typeof value === "string" ? value : JSON.stringify(value)));
    return read.ok ? "ok" : read.issues[0]?.code;
  };
  expect(codeOf(good)).toBe("ok");
  expect(codeOf(JSON.stringify(good).slice(0, -3))).toBe("invalid-json");
  expect(codeOf({})).toBe("not-a-book");
  expect(codeOf({ ...good, version: 2 })).toBe("newer-document");
  expect(codeOf({ ...good, version: 1.5 })).not.toBe("newer-document");
  expect(codeOf({ ...good, entries: { tractors: [] } })).toBe("unknown-key");
  const entry = {
    id: "home",
    revision: 1,
    createdUtc: "2026-07-01T00:00:00Z",
    changedUtc: "2026-07-01T00:00:00Z",
    deleted: false,
    createdHash: "0".repeat(64),
    doc: SITE,
  };
  expect(codeOf({ ...good, entries: { sites: [entry] } })).toBe("ok");
  expect(codeOf({ ...good, entries: { sites: [entry, entry] } })).toBe("not-unique");
  expect(codeOf({ ...good, entries: { sites: [{ ...entry, doc: { ...SITE, latitude: 144 } }] } })).toBe(
    "out-of-range",
  );
  expect(codeOf({ ...good, entries: { sites: [{ ...entry, stray: 1 }] } })).toBe("unknown-key");
});

test("the file is written to the disk before a write is acknowledged, and other programs' writes are waited for", async () => {
  const opened = await emptyEngine("sqlite");
  const pragma = async (name: string) =>
    (await sql.raw<Record<string, unknown>>(`pragma ${name}`).execute(opened.db)).rows[0];
  expect(await pragma("journal_mode")).toEqual({ journal_mode: "wal" });
  expect(await pragma("synchronous")).toEqual({ synchronous: 2 });
  expect(await pragma("busy_timeout")).toEqual({ timeout: 5000 });
});

test("a file that is no database is told, and left as it is", async () => {
  const { openBook } = await import("../../../server/book/open-book.ts");
  const { testFolder } = await import("../../support/book/books.ts");
  const file = join(testFolder(), "book.sqlite");
  writeFileSync(file, "my diary, not a book ".repeat(200));
  await expect(openBook({ file, databaseUrl: null }, Date.now)).rejects.toThrow("damaged or no book");
  expect(readFileSync(file, "utf8")).toContain("my diary");
});
