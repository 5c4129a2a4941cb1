import { createRoute, type OpenAPIHono, z } from "@hono/zod-openapi";
import type { BookKind } from "../../model/book/index.ts";
import { kindSchemas, listQuery, revisionQuery } from "../schemas/book/api.ts";
import { badRequest, errorSchema, jsonOf, tooLarge } from "../schemas/error.ts";

const notThere = jsonOf(errorSchema, "No such entry");
const unavailable = jsonOf(
  errorSchema,
  "The book is full (507), can only be read, or cannot be reached (503)",
);

/** The addresses of one kind in the description of the API. */
export function describeKind(app: OpenAPIHono, kind: BookKind): void {
  const schemas = kindSchemas(kind);
  const path = `/api/book/${kind}`;
  const json = (schema: z.ZodType) => ({ required: true, content: { "application/json": { schema } } });
  const conflict = jsonOf(
    schemas.conflict,
    "Another one is there, or it was changed meanwhile: as it stands",
  );
  const usual = { 400: badRequest, 503: unavailable };
  const one = { 200: jsonOf(schemas.entry, "The entry; its ETag is its revision"), ...usual };
  const removed = { ...one, 404: notThere, 409: conflict, 507: unavailable };
  const written = { ...removed, 413: tooLarge };
  const params = z.object({ id: z.string() });
  const ifMatch = z.object({ "If-Match": z.string().optional() });
  const doc = app.openAPIRegistry;
  doc.registerPath(
    createRoute({
      method: "get",
      path,
      summary: `The book's ${kind}, by page`,
      request: { query: listQuery },
      responses: { 200: jsonOf(schemas.list, "Entries, and where the next page begins"), ...usual },
    }),
  );
  doc.registerPath(
    createRoute({
      method: "post",
      path,
      summary: `A new entry of ${kind} under an id that the client made; sent twice it is one`,
      request: { body: json(schemas.create) },
      responses: { 201: jsonOf(schemas.entry, "It is in the book"), ...written },
    }),
  );
  const at = { path: `${path}/{id}`, request: { params, query: revisionQuery, headers: ifMatch } };
  doc.registerPath(
    createRoute({ ...at, method: "get", summary: `One of ${kind}`, responses: { ...one, 404: notThere } }),
  );
  doc.registerPath(
    createRoute({
      ...at,
      method: "put",
      summary: "With a revision: the whole document changed. Without: made under this id",
      request: { ...at.request, body: json(schemas.put) },
      responses: { 201: jsonOf(schemas.entry, "It is in the book"), ...written },
    }),
  );
  doc.registerPath(
    createRoute({
      ...at,
      method: "patch",
      summary: "The keys that are given replace those of the document",
      request: { ...at.request, body: json(schemas.patch) },
      responses: { ...written, 428: jsonOf(errorSchema, "Needs the revision that was seen") },
    }),
  );
  doc.registerPath(
    createRoute({
      ...at,
      method: "delete",
      summary: "Deleted: a tombstone stays, and what names it keeps its name",
      responses: { ...removed, 428: jsonOf(errorSchema, "Needs the revision that was seen") },
    }),
  );
}
