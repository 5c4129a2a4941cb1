import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { BOOK_KINDS, lotsCsv, readingsCsv } from "../../model/book/index.ts";
import type { Outcome } from "../../model/limits.ts";
import type { BookReader } from "../book/book.ts";
import { copyDemo } from "../book/demo-book.ts";
import { MAX_DOCUMENT_BYTES } from "../book/document.ts";
import { dueCalendar } from "../book/due-calendar.ts";
import { dueOf } from "../book/due-of.ts";
import { sequenceOf } from "../book/plan-sequence.ts";
import { readDocument } from "../book/read-document.ts";
import { recordOf } from "../book/record-of.ts";
import { check } from "../check.ts";
import { planCalendar } from "../crew/export.ts";
import { limitBody } from "../limit-body.ts";
import { invalidRequest, plainProblem, sendProblem } from "../problem.ts";
import {
  bookQuery,
  bookState,
  CALENDAR_DAYS,
  calendarQuery,
  copied,
  DAYS_USUAL,
  dueAnswer,
  dueQuery,
  imported,
  importQuery,
} from "../schemas/book/api.ts";
import { bookDocumentSchema } from "../schemas/book/document.ts";
import { planToExport } from "../schemas/crew-export.ts";
import { badRequest, errorSchema, jsonOf, tooLarge } from "../schemas/error.ts";
import { recordResult } from "../schemas/record.ts";
import { streamText } from "../stream-text.ts";
import { addKindRoutes, type BookSource } from "./book-kind.ts";
import { invalid } from "./book-reading.ts";

/** The book's addresses with what each takes, HEAD beside GET. */
export const BOOK_METHODS: Readonly<Record<string, readonly string[]>> = {
  "/api/book": ["GET"],
  ...Object.fromEntries(
    BOOK_KINDS.flatMap((kind) => [
      [`/api/book/${kind}`, ["GET", "POST"]],
      [`/api/book/${kind}/{id}`, ["GET", "PUT", "PATCH", "DELETE"]],
    ]),
  ),
  "/api/book/crew-plans/{id}/calendar.ics": ["GET"],
  "/api/book/record": ["GET"],
  "/api/book/due": ["GET"],
  "/api/book/due.ics": ["GET"],
  "/api/book/readings.csv": ["GET"],
  "/api/book/lots.csv": ["GET"],
  "/api/book/export": ["GET"],
  "/api/book/import": ["POST"],
  "/api/book/copy-demo": ["POST"],
};

const unavailable = jsonOf(
  errorSchema,
  "The book is full (507), can only be read, or cannot be reached (503)",
);
const usual = { 400: badRequest, 503: unavailable };

function file(c: Context, text: string | ReadableStream, type: string, name: string) {
  return c.body(text, 200, {
    "Content-Type": `${type}; charset=utf-8`,
    "Content-Disposition": `attachment; filename="${name}"`,
  });
}

function describe(app: OpenAPIHono): void {
  const doc = app.openAPIRegistry;
  const text = (type: string, description: string) => ({
    description,
    content: { [type]: { schema: z.string() } },
  });
  const get = (path: string, summary: string, query: z.ZodObject, answer: object) =>
    doc.registerPath(
      createRoute({
        method: "get",
        path,
        summary,
        request: { query },
        responses: { 200: answer as ReturnType<typeof text>, ...usual },
      }),
    );
  get(
    "/api/book",
    "What the book is kept in, and how much of it there is",
    bookQuery,
    jsonOf(bookState, "It is there"),
  );
  get("/api/book/due", "What the coming days ask for", dueQuery, jsonOf(dueAnswer, "In the order of time"));
  get(
    "/api/book/due.ics",
    `The same as a calendar, of ${CALENDAR_DAYS} days unless said otherwise`,
    dueQuery,
    text("text/calendar", "RFC 5545"),
  );
  get(
    "/api/book/record",
    "Scores of the book's forecasts against its readings, as POST /api/record gives them",
    bookQuery,
    jsonOf(recordResult, "By route and lead time"),
  );
  get(
    "/api/book/crew-plans/{id}/calendar.ics",
    "A stored crew plan as a calendar; its SEQUENCE is the plan's count of changes, that never falls",
    calendarQuery,
    text("text/calendar", "RFC 5545"),
  );
  get("/api/book/readings.csv", "All readings", bookQuery, text("text/csv", "RFC 4180"));
  get("/api/book/lots.csv", "All lots", bookQuery, text("text/csv", "RFC 4180"));
  get("/api/book/export", "The whole book", bookQuery, jsonOf(bookDocumentSchema, "One document"));
  doc.registerPath(
    createRoute({
      method: "post",
      path: "/api/book/import",
      summary: "A whole book taken in: all of it or nothing",
      request: {
        query: importQuery,
        body: { required: true, content: { "application/json": { schema: bookDocumentSchema } } },
      },
      responses: {
        200: jsonOf(imported, "What was taken in"),
        409: jsonOf(errorSchema, "Entries of the same id differ: nothing was changed"),
        413: tooLarge,
        507: unavailable,
        ...usual,
      },
    }),
  );
  doc.registerPath(
    createRoute({
      method: "post",
      path: "/api/book/copy-demo",
      summary: "The invented farm copied into one's own book",
      responses: {
        200: jsonOf(copied, "How many were copied, how many were there"),
        503: unavailable,
        507: unavailable,
      },
    }),
  );
}

export function bookRoutes(source: BookSource) {
  const app = new OpenAPIHono();
  const { nowMs } = source;
  const bookOf = async (which: "own" | "demo" = "own"): Promise<BookReader> =>
    which === "demo" ? source.demo : source.own();
  const asked = async (c: Context): Promise<Outcome<BookReader>> => {
    const query = check(bookQuery, c.req.query());
    return query.ok ? { ok: true, value: await bookOf(query.value.book) } : query;
  };
  const dueAsked = async (c: Context, usualDays: number) => {
    const query = check(dueQuery, c.req.query());
    if (!query.ok) return query;
    const { book, days = usualDays } = query.value;
    const now = nowMs();
    return { ok: true as const, value: { now, days, items: await dueOf(await bookOf(book), now, days) } };
  };
  describe(app);
  // A book is its owner's: nobody on the way keeps a copy.
  app.use("/api/book/*", async (c, next) => {
    await next();
    if (!c.res.headers.has("Cache-Control")) c.header("Cache-Control", "private, no-cache");
  });
  app.get("/api/book", async (c) => {
    const book = await asked(c);
    return book.ok ? c.json(await book.value.state()) : invalid(c, book.issues);
  });
  app.get("/api/book/due", async (c) => {
    const due = await dueAsked(c, DAYS_USUAL);
    if (!due.ok) return invalid(c, due.issues);
    const { now, days, items } = due.value;
    return c.json({ nowUtc: new Date(now).toISOString(), days, items });
  });
  app.get("/api/book/due.ics", async (c) => {
    const due = await dueAsked(c, CALENDAR_DAYS);
    if (!due.ok) return invalid(c, due.issues);
    return file(c, dueCalendar(due.value.items, due.value.now), "text/calendar", "swathclock-due.ics");
  });
  app.get("/api/book/readings.csv", async (c) => {
    const book = await asked(c);
    if (!book.ok) return invalid(c, book.issues);
    const { value } = book;
    const [readings, fields, lots, cuts] = await Promise.all([
      value.all("readings"),
      value.all("fields"),
      value.all("lots"),
      value.all("cuts", true),
    ]);
    return file(c, readingsCsv(readings, fields, lots, cuts), "text/csv", "swathclock-readings.csv");
  });
  app.get("/api/book/lots.csv", async (c) => {
    const book = await asked(c);
    if (!book.ok) return invalid(c, book.issues);
    const { value } = book;
    const [lots, fields, cuts] = await Promise.all([
      value.all("lots"),
      value.all("fields"),
      value.all("cuts", true),
    ]);
    return file(c, lotsCsv(lots, fields, cuts), "text/csv", "swathclock-lots.csv");
  });
  app.get("/api/book/export", async (c) => {
    const book = await asked(c);
    if (!book.ok) return invalid(c, book.issues);
    const whole = c.req.method === "HEAD" ? "" : await streamText(book.value.document());
    return file(c, whole, "application/json", "swathclock-book.json");
  });
  app.post("/api/book/import", limitBody(MAX_DOCUMENT_BYTES), async (c) => {
    const query = check(importQuery, c.req.query());
    if (!query.ok) return invalid(c, query.issues);
    const document = readDocument(await c.req.arrayBuffer());
    if (!document.ok) return invalid(c, document.issues, "invalid-book");
    const done = await (await source.own()).takeIn(document.value, query.value.mode ?? "add");
    if (done.ok) return c.json(done.value);
    const clash = done.issues.some(({ code }) => code === "conflict");
    return sendProblem(
      c,
      clash ? 409 : 400,
      invalidRequest(done.issues, clash ? "conflict" : "invalid-book"),
    );
  });
  app.post("/api/book/copy-demo", async (c) => c.json(await copyDemo(await source.own(), nowMs())));
  app.get("/api/book/record", async (c) => {
    const book = await asked(c);
    if (!book.ok) return invalid(c, book.issues);
    const record = await recordOf(book.value);
    return record.ok ? c.json(record.value) : invalid(c, record.issues);
  });
  app.get("/api/book/crew-plans/:id/calendar.ics", async (c) => {
    const entry = await (await source.own()).one("crew-plans", c.req.param("id"));
    if (entry === null || entry.deleted)
      return sendProblem(c, 404, plainProblem("not-found", "no such crew plan"));
    // A kept plan may be called anything; its calendar is called so in one line.
    const title = String(entry.doc.name).replaceAll(/\p{Cc}+/gu, " ");
    const plan = check(planToExport, { ...entry.doc.answer, planId: entry.id, title });
    if (!plan.ok) return invalid(c, plan.issues);
    const revision = sequenceOf(entry.doc, entry.revision);
    const text = planCalendar({ ...plan.value, revision }, nowMs());
    return file(c, text, "text/calendar", "crew-plan.ics");
  });
  for (const kind of BOOK_KINDS) addKindRoutes(app, kind, source);
  return app;
}
