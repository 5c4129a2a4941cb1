import { spawn, spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { sql } from "kysely";
import { describe, expect, onTestFinished, test } from "vitest";
import { BookFailure, bookFailureOf, openingFailureOf } from "../../../server/book/failure.ts";
import { migrateBook } from "../../../server/book/migrate.ts";
import { openBook } from "../../../server/book/open-book.ts";
import { openSqlite } from "../../../server/book/sqlite.ts";
import { storedBook } from "../../../server/book/stored-book.ts";
import { fakeApp } from "../../support/app.ts";
import { testFolder, ticking } from "../../support/book/books.ts";
import { FIELD, READING, withField } from "../../support/book/docs.ts";
import { ROOT } from "../../support/root.ts";

const LIMIT_MS = 60_000;

/** Runs the writer; where a number is given it is killed as soon as it has said so many entries. */
function write(file: string, name: string, words: readonly string[], killAfter?: number): Promise<string[]> {
  const script = join(ROOT, "tests/support/book/writer.ts");
  const child = spawn(process.execPath, ["--import", "tsx", script, file, name, ...words], {
    cwd: ROOT,
    stdio: ["ignore", "pipe", "pipe"],
  });
  const timer = setTimeout(() => child.kill("SIGKILL"), LIMIT_MS);
  let said = "";
  let complaint = "";
  child.stdout.setEncoding("utf8").on("data", (part: string) => {
    said += part;
    if (killAfter !== undefined && said.split("\n").length > killAfter) child.kill("SIGKILL");
  });
  child.stderr.setEncoding("utf8").on("data", (part: string) => {
    complaint += part;
  });
  return new Promise((resolve, reject) => {
    child.once("close", (code) => {
      clearTimeout(timer);
      const lines = said.split("\n").slice(0, -1);
      if (code !== 0 && killAfter === undefined)
        reject(new Error(`${name} ended with ${code}: ${complaint}`));
      else resolve(lines);
    });
  });
}

async function idsIn(file: string): Promise<Set<string>> {
  const engine = openSqlite(file, { nowMs: Date.now });
  const whole = await sql<{ integrity_check: string }>`pragma integrity_check`.execute(engine.db);
  expect(whole.rows).toEqual([{ integrity_check: "ok" }]);
  const rows = await engine.db.selectFrom("entries").select("id").execute();
  await engine.close();
  return new Set(rows.map(({ id }) => id));
}

test("a program that is killed while it writes loses no entry that was acknowledged", {
  timeout: 2 * LIMIT_MS,
}, async () => {
  const file = join(testFolder(), "book.sqlite");
  const said: string[] = [];
  for (const round of ["first", "second"]) said.push(...(await write(file, round, ["100000"], 40)));
  expect(said.length).toBeGreaterThanOrEqual(80);
  const there = await idsIn(file);
  expect(said.filter((id) => !there.has(id))).toEqual([]);
});

test("two programs that start on a new file at once and write into it lose nothing", {
  timeout: 2 * LIMIT_MS,
}, async () => {
  const file = join(testFolder(), "book.sqlite");
  const said = await Promise.all([write(file, "one", ["80", "15"]), write(file, "two", ["80", "15"])]);
  const there = await idsIn(file);
  for (const lines of said) {
    expect(lines.at(-1)).toBe("done");
    expect(lines).toHaveLength(81);
    expect(lines.slice(0, -1).filter((id) => !there.has(id))).toEqual([]);
  }
  const { book } = await openBook({ file, databaseUrl: null }, Date.now);
  expect((await book.one("fields", "creek"))?.doc.notes).toBe("30");
  await book.close();
});

/** A disk of 512 kB where this user may make one, else null. */
function smallDisk(): string | null {
  const folder = join(testFolder(), "disk");
  mkdirSync(folder);
  const mount = (words: readonly string[]) => spawnSync("mount", words, { timeout: 5000 }).status === 0;
  if (process.getuid?.() !== 0 || !mount(["-t", "tmpfs", "-o", "size=512k", "tmpfs", folder])) return null;
  onTestFinished(() => {
    spawnSync("umount", ["--lazy", folder], { timeout: 5000 });
  });
  return folder;
}

test("a full disk: a clear error, nothing half written, reads go on, and writes again when there is room", async () => {
  const disk = smallDisk();
  const nowMs = ticking();
  // Where no disk can be made, the file itself may grow no further: SQLite says the same.
  const options = disk === null ? { nowMs, maxPages: 60 } : { nowMs };
  const engine = openSqlite(join(disk ?? testFolder(), "book.sqlite"), options);
  onTestFinished(() => engine.close().catch(() => {}));
  await migrateBook(engine);
  const book = await withField(storedBook(engine, nowMs));
  const app = fakeApp({ book: async () => book, nowMs });
  const put = (id: string) =>
    app.request(`/api/book/readings/${id}`, {
      method: "PUT",
      body: JSON.stringify({ doc: { ...READING, notes: "x".repeat(3900) } }),
    });
  const made: string[] = [];
  let full: Response | null = null;
  for (let n = 0; n < 400 && full === null; n += 1) {
    const response = await put(`r${n}`);
    if (response.status === 201) made.push(`r${n}`);
    else full = response;
  }
  expect([full?.status, (await full?.json())?.error]).toEqual([507, "book-full"]);
  expect(made.length).toBeGreaterThan(5);
  const listed = await (await app.request("/api/book/readings?limit=500")).json();
  expect(listed.entries.map(({ id }: { id: string }) => id).sort()).toEqual([...made].sort());
  const document = await (await app.request("/api/book/export")).text();
  const whole = await app.request("/api/book/import?mode=replace", { method: "POST", body: document });
  expect(whole.status).toBe(507);
  expect((await book.state()).counts.readings).toBe(made.length);
  if (disk !== null) spawnSync("mount", ["-o", "remount,size=4m", disk], { timeout: 5000 });
  else await sql`pragma max_page_count=4000`.execute(engine.db);
  expect((await put("after")).status).toBe(201);
});

test("a first start on a full disk says so, and does not promise that anything can be read", async () => {
  const disk = smallDisk();
  if (disk === null) {
    const full = Object.assign(new Error("full"), { code: "SQLITE_FULL" });
    expect(openingFailureOf(full, "the book at X")?.message).toMatch(
      /^the book at X cannot be opened: its disk/,
    );
    return;
  }
  writeFileSync(join(disk, "filled"), Buffer.alloc(512 * 1024 - 3 * 4096));
  const opened = openBook({ file: join(disk, "book.sqlite"), databaseUrl: null }, Date.now);
  const failure = await opened.then(
    () => null,
    (error: unknown) => error,
  );
  if (!(failure instanceof BookFailure)) throw new Error("it was opened");
  // SQLite calls it full, or a disk that fails, by which of its files it could not make.
  expect([failure.status, failure.body.error]).toEqual([507, expect.stringMatching(/^book-(full|disk)$/)]);
  expect(failure.message).toMatch(
    /cannot be opened: its disk is full or failing, and nothing of it can be read/,
  );
  expect(failure.message).not.toContain("reading still works");
});

test.each([
  ["SQLITE_FULL", 507, "book-full"],
  ["SQLITE_IOERR_WRITE", 507, "book-disk"],
  ["53100", 507, "book-full"],
  ["SQLITE_READONLY_DBMOVED", 503, "book-read-only"],
  ["40P01", 503, "book-busy"],
])("what a database says as %s is a %i %s", (code, status, name) => {
  const failure = bookFailureOf(Object.assign(new Error("said"), { code }));
  expect([failure?.status, failure?.body.error]).toEqual([status, name]);
});

describe("a book that may only be read", () => {
  /** Does this as a user for whom the protection counts: for root none does. */
  async function unprivileged<T>(work: () => Promise<T>): Promise<T> {
    if (process.getuid?.() !== 0 || !process.seteuid) return work();
    process.seteuid(65_534);
    try {
      return await work();
    } finally {
      process.seteuid(0);
    }
  }

  test("its entries are read, a write says why not, and the file stays as it is", async () => {
    const folder = testFolder();
    const file = join(folder, "book.sqlite");
    const first = await openBook({ file, databaseUrl: null }, Date.now);
    await withField(first.book);
    await first.book.close();
    chmodSync(file, 0o444);
    chmodSync(folder, 0o555);
    onTestFinished(() => chmodSync(folder, 0o755));
    const opened = await unprivileged(() => openBook({ file, databaseUrl: null }, Date.now));
    const { book } = opened;
    onTestFinished(() => book.close());
    expect(opened.readOnly).toBe(true);
    expect((await book.one("fields", "creek"))?.doc).toEqual(FIELD);
    const app = fakeApp({ book: async () => book });
    expect((await app.request("/api/book/fields")).status).toBe(200);
    const write = await app.request("/api/book/readings/r1", {
      method: "PUT",
      body: JSON.stringify({ doc: READING }),
    });
    expect([write.status, (await write.json()).error]).toEqual([503, "book-read-only"]);
    await expect(book.remove("fields", "creek", 1)).rejects.toBeInstanceOf(BookFailure);
  });
});
