import type { OpenAPIHono, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { type BookDocs, type BookKind, HEAVY_KEYS } from "../../model/book/index.ts";
import type { Book, BookReader, Written } from "../book/book.ts";
import { check } from "../check.ts";
import { limitBody, MAX_JSON_BYTES, MAX_UPLOAD_BYTES } from "../limit-body.ts";
import { invalidRequest, plainProblem, sendProblem } from "../problem.ts";
import { MAX_PARTS } from "../read-json.ts";
import { idOnly, kindSchemas, revisionQuery } from "../schemas/book/api.ts";
import { BOOK_SCHEMAS } from "../schemas/book/kinds.ts";
import { record } from "../schemas/parts.ts";
import { describeKind } from "./book-kind-doc.ts";
import { invalid, markText, readBody, readListQuery, seenRevision } from "./book-reading.ts";

/** Where the routes get the book that a request is about. */
export interface BookSource {
  readonly own: () => Promise<Book>;
  readonly demo: BookReader;
  readonly nowMs: () => number;
}

/** Objects and lists of a kept request with many sites and members, and of its answer. */
const HEAVY_PARTS = 200_000;

/** Of one kind: list, make, read, change, delete. */
export function addKindRoutes<K extends BookKind>(app: OpenAPIHono, kind: K, source: BookSource): void {
  const schemas = kindSchemas(kind);
  const heavy = HEAVY_KEYS[kind] !== undefined;
  const parts = heavy ? HEAVY_PARTS : MAX_PARTS;
  const limit = limitBody(heavy ? MAX_UPLOAD_BYTES : MAX_JSON_BYTES);
  const path = `/api/book/${kind}`;
  describeKind(app, kind);

  const answer = (c: Context, result: Written<K>) => {
    switch (result.kind) {
      case "missing":
        return sendProblem(c, 404, plainProblem("not-found", `no such entry among the ${kind}`));
      case "invalid": {
        const inUse = result.issues.some(({ code }) => code === "in-use");
        return inUse
          ? sendProblem(c, 409, invalidRequest(result.issues, "in-use"))
          : invalid(c, result.issues);
      }
      case "stale": {
        const { entry } = result;
        const what = entry.deleted ? "was deleted" : `is at revision ${entry.revision} now`;
        const problem = plainProblem(
          "conflict",
          `"${entry.id}" ${what}: nothing was changed; here it is as it stands`,
        );
        c.header("ETag", `"${entry.revision}"`);
        return c.json({ ...problem, entry }, 409);
      }
      default:
        c.header("ETag", `"${result.entry.revision}"`);
        return c.json(result.entry, result.kind === "made" ? 201 : 200);
    }
  };
  const demoOnlyRead = (c: Context) =>
    sendProblem(
      c,
      403,
      plainProblem(
        "demo-read-only",
        "the demonstration's book can only be read; POST /api/book/copy-demo copies it",
      ),
    );
  const needsRevision = (c: Context) =>
    sendProblem(
      c,
      428,
      plainProblem(
        "revision-needed",
        'needs the revision that was seen: If-Match: "3", or revision beside it',
      ),
    );
  const make = async (c: Context, id: string, doc: BookDocs[K]) =>
    answer(c, await (await source.own()).make(kind, id, doc));

  app.get(path, async (c) => {
    const read = readListQuery(c.req.query());
    if (!read.ok) return invalid(c, read.issues);
    const { book, ...question } = read.value;
    const { entries, next } = await (book === "demo" ? source.demo : await source.own()).list(kind, question);
    return c.json({ entries, next: next === null ? null : markText(next) });
  });
  app.post(path, limit, async (c) => {
    if (c.req.query("book") === "demo") return demoOnlyRead(c);
    const body = await readBody(c, schemas.create, parts);
    return body.ok ? make(c, body.value.id, body.value.doc) : invalid(c, body.issues);
  });
  app.get(`${path}/:id`, async (c) => {
    const query = check(revisionQuery, c.req.query());
    if (!query.ok) return invalid(c, query.issues);
    const book = query.value.book === "demo" ? source.demo : await source.own();
    const entry = await book.one(kind, c.req.param("id"));
    return answer(c, entry === null ? { kind: "missing" } : { kind: "same", entry });
  });
  app.put(`${path}/:id`, limit, async (c) => {
    if (c.req.query("book") === "demo") return demoOnlyRead(c);
    const id = check(idOnly, { id: c.req.param("id") });
    if (!id.ok) return invalid(c, id.issues);
    const body = await readBody(c, schemas.put, parts);
    if (!body.ok) return invalid(c, body.issues);
    const seen = seenRevision(c, body.value.revision);
    if (!seen.ok) return invalid(c, seen.issues);
    const { doc } = body.value;
    if (seen.value === undefined) return make(c, id.value.id, doc);
    const book = await source.own();
    return answer(c, await book.change(kind, id.value.id, seen.value, () => ({ ok: true, value: doc })));
  });
  app.patch(`${path}/:id`, limit, async (c) => {
    if (c.req.query("book") === "demo") return demoOnlyRead(c);
    const body = await readBody(c, schemas.patch, parts);
    if (!body.ok) return invalid(c, body.issues);
    const seen = seenRevision(c, body.value.revision);
    if (!seen.ok) return invalid(c, seen.issues);
    if (seen.value === undefined) return needsRevision(c);
    const whole = record({ doc: BOOK_SCHEMAS[kind] as z.ZodType<BookDocs[K]> });
    const result = await (await source.own()).change(kind, c.req.param("id"), seen.value, (present) => {
      const changed = check(whole, { doc: { ...present, ...body.value.doc } });
      return changed.ok ? { ok: true, value: changed.value.doc as BookDocs[K] } : changed;
    });
    return answer(c, result);
  });
  app.delete(`${path}/:id`, async (c) => {
    if (c.req.query("book") === "demo") return demoOnlyRead(c);
    const query = check(revisionQuery, c.req.query());
    if (!query.ok) return invalid(c, query.issues);
    const seen = seenRevision(c, query.value.revision);
    if (!seen.ok) return invalid(c, seen.issues);
    if (seen.value === undefined) return needsRevision(c);
    return answer(c, await (await source.own()).remove(kind, c.req.param("id"), seen.value));
  });
}
