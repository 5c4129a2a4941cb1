import { beforeEach, describe, expect, test } from "vitest";
import type { Book } from "../../../server/book/book.ts";
import { dueAnswer } from "../../../server/schemas/book/api.ts";
import { errorSchema } from "../../../server/schemas/error.ts";
import { fakeApp, post } from "../../support/app.ts";
import { ENGINES, emptyBook, ticking } from "../../support/book/books.ts";
import { CUT, FIELD, LOT, READING, SITE, withField } from "../../support/book/docs.ts";
import { fieldOf, readCalendar, textOf } from "../../support/crew/read-calendar.ts";

const NOW = "2026-07-01T12:00:00Z";

/** The one event of that UID. */
function eventOf(text: string, uid: string) {
  const found = readCalendar(text).parts.filter(
    (part) => part.name === "VEVENT" && fieldOf(part, "UID") === uid,
  );
  if (found.length !== 1 || !found[0]) throw new Error(`${found.length} events of ${uid}`);
  return found[0];
}

describe.each(ENGINES)("the book's API on %s", (engine) => {
  let book: Book;
  let app: ReturnType<typeof fakeApp>;
  beforeEach(async () => {
    const nowMs = ticking(NOW);
    book = await withField(await emptyBook(engine, { nowMs }));
    app = fakeApp({ book: async () => book, nowMs });
    // The first of a run waits until PostgreSQL has started.
  }, 60_000);

  const send = (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) =>
    app.request(`/api/book/${path}`, {
      method,
      headers: { "content-type": "application/json", ...headers },
      ...(body === undefined ? {} : { body: typeof body === "string" ? body : JSON.stringify(body) }),
    });

  test("a phone that sends a reading twice has it once", async () => {
    const first = await send("POST", "readings", { id: "r-1", doc: READING });
    expect(first.status).toBe(201);
    expect(first.headers.get("etag")).toBe('"1"');
    const again = await send("POST", "readings", { id: "r-1", doc: READING });
    expect(again.status).toBe(200);
    expect(await again.json()).toEqual(await first.json());
    expect((await send("PUT", "readings/r-1", { doc: READING })).status).toBe(200);
    const other = await send("PUT", "readings/r-1", { doc: { ...READING, moistureWb: 0.5 } });
    expect(other.status).toBe(409);
    expect(await other.json()).toMatchObject({ error: "conflict", entry: { doc: READING } });
    const list = await (await send("GET", "readings?fieldId=creek")).json();
    expect(list.entries).toHaveLength(1);
  });

  test("two edit one field: by ETag or by revision, the second gets it as it stands", async () => {
    const read = await send("GET", "fields/creek");
    const etag = read.headers.get("etag") ?? "";
    const first = await send("PATCH", "fields/creek", { doc: { notes: "first" } }, { "if-match": etag });
    expect(first.status).toBe(200);
    expect(first.headers.get("etag")).toBe('"2"');
    for (const [body, headers] of [
      [{ doc: { notes: "second" } }, { "if-match": `W/${etag}` }],
      [{ revision: 1, doc: { areaHa: 5 } }, {}],
    ] as const) {
      const second = await send("PATCH", "fields/creek", body, headers);
      expect(second.status).toBe(409);
      expect(await second.json()).toMatchObject({
        entry: { revision: 2, doc: { ...FIELD, notes: "first" } },
      });
    }
    const put = await send("PUT", "fields/creek", { revision: 2, doc: { ...FIELD, areaHa: 5 } });
    expect(await put.json()).toMatchObject({ revision: 3, doc: { areaHa: 5 } });
    expect((await send("DELETE", "fields/creek?revision=2")).status).toBe(409);
    expect((await send("DELETE", "fields/creek")).status).toBe(428);
    expect((await send("PATCH", "fields/creek", { doc: {} })).status).toBe(428);
    expect((await send("DELETE", "fields/creek", undefined, { "if-match": '"3"' })).status).toBe(200);
    expect((await send("DELETE", "fields/creek?revision=3")).status).toBe(200);
    const gone = await (await send("GET", "fields/creek")).json();
    expect(gone).toMatchObject({ deleted: true, revision: 4 });
  });

  test("an id that an address cannot carry, a bad ETag, a bad query, an unknown kind", async () => {
    expect((await send("POST", "readings", { id: "../etc", doc: READING })).status).toBe(400);
    expect((await send("PUT", `readings/${encodeURIComponent("a b")}`, { doc: READING })).status).toBe(400);
    expect((await send("PATCH", "fields/creek", { doc: {} }, { "if-match": "*" })).status).toBe(400);
    expect((await send("GET", "fields?limit=501")).status).toBe(400);
    expect((await send("GET", "fields?after=zzz")).status).toBe(400);
    expect((await send("GET", "fields?colour=green")).status).toBe(400);
    expect((await send("GET", "fields/nowhere")).status).toBe(404);
    expect((await send("PATCH", "fields/nowhere", { revision: 1, doc: {} })).status).toBe(404);
    expect((await send("GET", "tractors")).status).toBe(404);
    const refused = await send("DELETE", "fields");
    expect([refused.status, refused.headers.get("allow")]).toEqual([405, "GET, HEAD, POST"]);
    expect((await send("POST", "fields/creek", {})).headers.get("allow")).toBe(
      "GET, HEAD, PUT, PATCH, DELETE",
    );
  });

  test("a change that would leave a document wrong is refused, and it stays", async () => {
    const bad = await send("PATCH", "fields/creek", { revision: 1, doc: { areaHa: -1 } });
    expect(errorSchema.parse(await bad.json()).issues[0]?.path).toBe("doc.areaHa");
    expect(await (await send("GET", "fields/creek")).json()).toMatchObject({ revision: 1, doc: FIELD });
  });

  test("lists come by page", async () => {
    for (const n of [1, 2, 3]) await book.make("readings", `r${n}`, READING);
    const first = await (await send("GET", "readings?limit=2")).json();
    expect(first.entries.map(({ id }: { id: string }) => id)).toEqual(["r1", "r2"]);
    const second = await (await send("GET", `readings?limit=2&after=${first.next}`)).json();
    expect([second.entries.map(({ id }: { id: string }) => id), second.next]).toEqual([["r3"], null]);
  });

  test("the whole book goes out and comes in again; broken or newer, nothing changes", async () => {
    await book.make("cuts", "c1", CUT);
    const document = await (await send("GET", "export")).text();
    for (const [text, code] of [
      [document.slice(0, -20), "invalid-json"],
      [document.replace('"version":1', '"version":9'), "newer-document"],
      [document.replace('"areaHa":12', '"areaHa":-12'), "out-of-range"],
    ] as const) {
      const response = await send("POST", "import?mode=replace", text);
      expect(response.status).toBe(400);
      expect(errorSchema.parse(await response.json()).issues[0]?.code).toBe(code);
    }
    const stripped = (text: string) => text.replace(/"exportedUtc":"[^"]*"/, "");
    expect(stripped(await (await send("GET", "export")).text())).toBe(stripped(document));

    await book.change("fields", "creek", 1, (doc) => ({ ok: true, value: { ...doc, notes: "n" } }));
    const clash = await send("POST", "import", document);
    expect([clash.status, errorSchema.parse(await clash.json()).issues[0]?.code]).toEqual([409, "conflict"]);
    const replaced = await send("POST", "import?mode=replace", document);
    expect(await replaced.json()).toMatchObject({ added: 3, removed: 3 });
    expect(stripped(await (await send("GET", "export")).text())).toBe(stripped(document));
  });

  test("what is due, and the same as a calendar that another reader understands", async () => {
    await book.make("lots", "l1", LOT);
    await book.make("cuts", "c1", CUT);
    const due = dueAnswer.parse(await (await send("GET", "due?days=3")).json());
    expect(due.items.map(({ id }) => id)).toEqual(["send-sample.l1", "mow.c1", "probe.l1"]);
    const response = await send("GET", "due.ics?days=3");
    expect(response.headers.get("content-type")).toContain("text/calendar");
    const text = await response.text();
    const mowing = eventOf(text, "mow.c1@swathclock");
    expect([fieldOf(mowing, "DTSTART"), fieldOf(mowing, "SEQUENCE")]).toEqual(["20260702T090000", "1"]);
    expect(textOf(mowing, "SUMMARY")).toBe("Creek field: mow");
    const probe = eventOf(text, "probe.l1@swathclock");
    expect(fieldOf(probe, "RRULE")).toBe("FREQ=HOURLY;INTERVAL=24;UNTIL=20260812T200000Z");
    const sample = eventOf(text, "send-sample.l1@swathclock");
    expect([fieldOf(sample, "DTSTART"), fieldOf(sample, "DTEND")]).toEqual(["20260701", "20260702"]);
    const zones = readCalendar(text).parts.filter(({ name }) => name === "VTIMEZONE");
    expect(zones.map((zone) => fieldOf(zone, "TZID"))).toEqual(["America/Chicago"]);
    for (const event of [mowing, probe, sample]) expect(fieldOf(event, "DTSTAMP")).toMatch(/^\d{8}T\d{6}Z$/);

    const plannedUtc = "2026-07-02T15:00:00Z";
    await book.change("cuts", "c1", 1, (doc) => ({ ok: true, value: { ...doc, plannedUtc } }));
    const moved = eventOf(await (await send("GET", "due.ics?days=3")).text(), "mow.c1@swathclock");
    expect([fieldOf(moved, "DTSTART"), fieldOf(moved, "SEQUENCE")]).toEqual(["20260702T100000", "2"]);
    expect((await send("GET", "due?days=0")).status).toBe(400);
    // A calendar holds what is opened after the eight weeks of sorghum types.
    const wrapped = {
      ...LOT,
      crop: "sorghum-sudan",
      route: "wrapped-bales",
      wrappedUtc: LOT.storedUtc,
    } as const;
    await book.make("lots", "bales", wrapped);
    expect(await (await send("GET", "due.ics")).text()).toContain("UID:open.bales@swathclock");
  });

  test("tables for a spreadsheet: quotes, new lines, and no formula", async () => {
    await book.make("readings", "r1", { ...READING, place: '=HYPERLINK("x")', notes: 'two\nlines, "said"' });
    const text = await (await send("GET", "readings.csv")).text();
    const [head, ...rows] = text.split("\r\n");
    expect(head?.startsWith("id,atUtc,fieldId,field,")).toBe(true);
    expect(rows.join("\r\n")).toBe(
      `r1,2026-07-01T18:00:00Z,creek,Creek field,,,,microwave,0.31,,,"'=HYPERLINK(""x"")",,,,,"two\nlines, ""said"""\r\n`,
    );
    await book.make("lots", "l1", { ...LOT, name: "\t=1+1" });
    expect(await (await send("GET", "lots.csv")).text()).toContain("'\t=1+1");
    // A lot that names only its cut has the cut's field.
    await book.make("cuts", "c1", CUT);
    await book.make("lots", "l2", { ...LOT, fieldId: null, cutId: "c1" });
    expect(await (await send("GET", "lots.csv")).text()).toContain(",creek,Creek field,c1,");
  });

  test("the demonstration is a book that is only read, and can be copied once", async () => {
    const demo = await (await send("GET", "fields?book=demo")).json();
    expect(demo.entries.map(({ id }: { id: string }) => id)).toEqual(["demo-creek", "demo-hill"]);
    expect((await send("PUT", "fields/demo-creek?book=demo", { doc: FIELD })).status).toBe(403);
    const due = dueAnswer.parse(await (await send("GET", "due?book=demo")).json());
    expect(new Set(due.items.map(({ work }) => work))).toEqual(
      new Set(["mow", "turn", "rake", "bale", "probe", "open", "send-sample", "result", "spray-over"]),
    );
    const copy = await (await send("POST", "copy-demo")).json();
    expect(copy.copied).toBeGreaterThan(8);
    expect(await (await send("POST", "copy-demo")).json()).toEqual({ copied: 0, kept: copy.copied });
    expect((await send("PATCH", "fields/demo-creek", { revision: 1, doc: { notes: "mine" } })).status).toBe(
      200,
    );
    const out = await (await send("GET", "export?book=demo")).text();
    expect((await send("POST", "import?mode=replace", out)).status).toBe(200);
  });
});

test("a stored crew plan is a calendar under its own UIDs; its sequence never falls, and the file goes by it", async () => {
  const book = await emptyBook("sqlite");
  const app = fakeApp({ book: async () => book, nowMs: ticking(NOW) });
  const job = { fieldId: "creek", op: "mow", machineId: "m1", personId: "p1" };
  const answer = {
    jobs: [{ ...job, startUtc: NOW, endUtc: "2026-07-01T15:00:00Z" }],
    timeZone: "America/Chicago",
  };
  const doc = { name: "Week", madeUtc: NOW, request: {}, answer };
  const send = (doc: object, revision?: number) =>
    app.request("/api/book/crew-plans/p-1", { method: "PUT", ...sent({ doc, revision }) });
  const sent = (body: object) => ({
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  });
  const sequence = (text: string) => Number(fieldOf(eventOf(text, "p-1.creek.mow@swathclock"), "SEQUENCE"));
  const followed = async () =>
    sequence(await (await app.request("/api/book/crew-plans/p-1/calendar.ics")).text());
  const inFile = async (plan: object) => {
    const body = sent({ ...plan, planId: "p-1" });
    return sequence(await (await app.request("/api/crew-plan/calendar", { method: "POST", ...body })).text());
  };
  // A file before anything is kept has the answer's own revision, and the plan that is kept then is not behind it.
  expect(await inFile({ ...answer, revision: 5 })).toBe(5);
  expect((await send({ ...doc, answer: { ...answer, revision: 5 } })).status).toBe(201);
  expect(await followed()).toBe(5);
  const before = await (await app.request("/api/book/export")).text();
  // The same visits: the same count; others: a newer file.
  expect(await inFile({ ...answer, revision: 0 })).toBe(5);
  expect(await inFile({ ...answer, jobs: [{ ...answer.jobs[0], endUtc: "2026-07-01T16:00:00Z" }] })).toBe(6);
  // Above the file, whose visits were others. A lower revision in the answer lowers nothing; sent again, it is the same entry.
  const lower = { ...doc, answer: { ...answer, revision: 2 }, notes: "moved" };
  expect([(await send(lower, 1)).status, await followed()]).toEqual([200, 7]);
  expect([(await send(lower, 1)).status, await followed()]).toEqual([200, 7]);
  expect([(await send({ ...doc, answer: { ...answer, revision: 9 } }, 2)).status, await followed()]).toEqual([
    200, 9,
  ]);
  const [visit] = answer.jobs;
  const turned = { endUtc: visit?.endUtc, op: "mow", startUtc: visit?.startUtc, personId: "p1" };
  // The same visits written in another order are the same; each file of others counts, and the stored plan goes by it.
  expect(await inFile({ ...answer, jobs: [{ ...turned, machineId: "m1", fieldId: "creek" }] })).toBe(9);
  const until = (hour: number) => ({ ...answer, jobs: [{ ...visit, endUtc: `2026-07-01T${hour}:00:00Z` }] });
  const files = [16, 17, 17].map((hour) => inFile(until(hour)));
  expect(await Promise.all(files)).toEqual([10, 11, 11]);
  expect(await followed()).toBe(9);
  expect([(await send({ ...doc, answer: until(17) }, 3)).status, await followed()]).toEqual([200, 11]);
  expect(await inFile(until(18))).toBe(12);
  expect([(await send({ ...doc, answer: until(19) }, 4)).status, await followed()]).toEqual([200, 13]);
  expect(await inFile(until(19))).toBe(13);
  // A document of before takes the place of all: the same entry but for the count, which goes on from what went out.
  const replace = async (document: string) =>
    (await app.request("/api/book/import?mode=replace", { method: "POST", body: document })).status;
  expect([await replace(before), await followed()]).toEqual([200, 14]);
  const now = await (await app.request("/api/book/export")).text();
  expect([await replace(now), await followed()]).toEqual([200, 14]);
  expect(await inFile(until(20))).toBe(15);
  expect([await replace(now), await inFile(until(20)), await followed()]).toEqual([200, 15, 14]);
  expect((await app.request("/api/book/crew-plans/none/calendar.ics")).status).toBe(404);
  await book.make("crew-plans", "p-2", { ...doc, answer: { jobs: "none" } });
  expect((await app.request("/api/book/crew-plans/p-2/calendar.ics")).status).toBe(400);
});

test("the book's forecasts are scored against its readings", async () => {
  const book = await withField(await emptyBook("sqlite"));
  const app = fakeApp({ book: async () => book, nowMs: ticking(NOW) });
  const hours = [0.7, 0.6, 0.5, 0.4];
  const course = {
    startUtc: [15, 16, 17, 18].map((hour) => `2026-07-01T${hour}:00:00Z`),
    moistureWb: hours,
    membersWb: [hours, hours.map((wb) => wb + 0.02)],
  };
  const issuedUtc = "2026-07-01T12:00:00Z";
  await book.make("forecasts", "f1", {
    fieldId: "creek",
    issuedUtc,
    modelVersion: "1",
    verb: "drydown",
    request: {},
    course,
  });
  await book.make("readings", "r1", READING);
  const record = await (await app.request("/api/book/record")).json();
  expect(record.counts).toMatchObject({ moisture: 1, days: 1 });
  // One day is too few to say a number; the group is there, and says so.
  expect(record.moisture).toHaveLength(1);
  expect(record.moisture[0].bias).toMatchObject({ enough: false, days: 1 });
  expect(record.notes.join(" ")).not.toContain("kept without odds");
  // A forecast stays as it was issued, and a course is hours one after the other.
  const send = (method: string, path: string, body: object) =>
    app.request(`/api/book/forecasts${path}`, { method, body: JSON.stringify(body) });
  const doc = { fieldId: "creek", issuedUtc, modelVersion: "1", verb: "drydown", request: {} };
  const again = await send("PATCH", "/f1", { revision: 1, doc: { issuedUtc: "2026-06-30T12:00:00Z" } });
  expect([again.status, (await again.json()).issues[0]]).toMatchObject([
    400,
    { path: "doc.issuedUtc", code: "fixed" },
  ]);
  const mad = { ...doc, course: { startUtc: ["x"], moistureWb: [0.5, 9] } };
  expect((await send("POST", "", { id: "f2", doc: mad })).status).toBe(400);
  // Central alone: nothing to score by, and that is said.
  const { membersWb: _, ...central } = course;
  expect((await send("POST", "", { id: "f3", doc: { ...doc, course: central } })).status).toBe(201);
  const more = await (await app.request("/api/book/record")).json();
  expect(more.notes.join(" ")).toContain("kept without odds, or whose hours cannot be read: 1.");
  // Of a lot of that field, in the course's own hours: no reading of the swath.
  expect(more.notes.join(" ")).not.toContain("stored lot");
  await book.make("lots", "hay", LOT);
  await book.make("readings", "r2", { ...READING, lotId: "hay" });
  const last = await (await app.request("/api/book/record")).json();
  expect(last.counts).toEqual(more.counts);
  expect(last.notes.join(" ")).toContain("stored lot, or taken after the cut was baled or chopped: 1.");
});

test("of two places a told window is scored by the work of its own cut, on the day of its own place", async () => {
  const book = await withField(await emptyBook("sqlite", { nowMs: ticking("2026-07-10T12:00:00Z") }));
  await book.make("sites", "abroad", { ...SITE, timeZone: "Europe/Berlin" });
  await book.make("fields", "far", { ...FIELD, siteId: "abroad" });
  // It ends at 3:00 UTC: the evening before in Chicago.
  const told = { what: "window", route: "dry-hay", fromUtc: "2026-07-02T22:00:00Z", chance: 0.7 } as const;
  const chance = {
    ...told,
    id: "window-dry-hay",
    toUtc: "2026-07-03T03:00:00Z",
    bandWb: [0.12, 0.16] as const,
  };
  for (const fieldId of ["creek", "far"]) {
    const operations = [{ kind: "bale", doneUtc: "2026-07-02T23:00:00Z" }] as const;
    await book.make("cuts", `cut-${fieldId}`, { ...CUT, fieldId, route: "dry-hay", operations });
    await book.make("forecasts", `of-${fieldId}`, {
      cutId: `cut-${fieldId}`,
      issuedUtc: "2026-07-02T12:00:00Z",
      modelVersion: "1",
      verb: "windows",
      request: {},
      chances: [chance, { ...chance, id: "window-wrapped-bales", route: "wrapped-bales" }],
    });
  }
  const app = fakeApp({ book: async () => book, nowMs: ticking(NOW) });
  const record = await (await app.request("/api/book/record")).json();
  expect(record.counts).toEqual({ moisture: 0, chances: 2, days: 2 });
  expect(record.chances).toMatchObject([{ route: "dry-hay", leadH: [0, 24], brier: { days: 2, scores: 2 } }]);
  expect(record.notes.join(" ")).toContain("not known whether they came: 2.");
});

test("without a book the rest is served, and the book says so", async () => {
  const response = await fakeApp().request("/api/book/fields");
  expect([response.status, (await response.json()).error]).toEqual([503, "book-unavailable"]);
});

test.each([
  ["sites", { ...SITE, latitude: 91 }, "doc.latitude", "out-of-range"],
  ["sites", { ...SITE, timeZone: "Mars/North" }, "doc.timeZone", "unknown-zone"],
  ["fields", { ...FIELD, colour: "green" }, "doc.colour", "unknown-key"],
  ["fields", { ...FIELD, name: " " }, "doc.name", "empty"],
  ["fields", { ...FIELD, name: "x".repeat(121) }, "doc.name", "too-many"],
  ["fields", { ...FIELD, name: "a\u0000b" }, "doc.name", "control-character"],
  ["fields", { ...FIELD, siteId: "nowhere" }, "doc.siteId", "unknown-reference"],
  ["readings", { ...READING, range: [0.1, 0.2] }, "doc", "one-of"],
  ["readings", { ...READING, moistureWb: 31 }, "doc.moistureWb", "out-of-range"],
  ["readings", { ...READING, fieldId: null }, "doc", "one-of"],
  ["cuts", { fieldId: "creek", crop: "alfalfa" }, "doc", "one-of"],
  [
    "lots",
    { ...LOT, results: [{ atUtc: NOW, nitrate: { value: 1 } }] },
    "doc.results[0].nitrate.unit",
    "missing",
  ],
])("a document of %s with something wrong in it is refused by name (%#)", async (kind, doc, path, code) => {
  const book = await withField(await emptyBook("sqlite"));
  const app = fakeApp({ book: async () => book });
  const response = await post(app, `/api/book/${kind}`, { id: "x", doc });
  expect(response.status).toBe(400);
  const { issues } = errorSchema.parse(await response.json());
  expect(issues.map((issue) => `${issue.path} ${issue.code}`)).toContain(`${path} ${code}`);
});
