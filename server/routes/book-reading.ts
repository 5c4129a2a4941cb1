import type { z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { BOOK_ID } from "../../model/book/index.ts";
import type { Issue, Outcome } from "../../model/limits.ts";
import type { ListQuestion, Mark } from "../book/book.ts";
import { check } from "../check.ts";
import { invalidRequest, sendProblem } from "../problem.ts";
import { readJson } from "../read-json.ts";
import { readText } from "../read-text.ts";
import { listQuery, PAGE_USUAL } from "../schemas/book/api.ts";

/** What a request to the book says: its query, its body, the revision that its writer saw. */

export const markText = ({ atUtc, id }: Mark): string => Buffer.from(`${atUtc} ${id}`).toString("base64url");

function readMark(text: string): Outcome<Mark> {
  const [atUtc = "", id = ""] = Buffer.from(text, "base64url").toString("utf8").split(" ");
  if (Number.isFinite(Date.parse(atUtc)) && BOOK_ID.test(id)) return { ok: true, value: { atUtc, id } };
  const message = "after: must be the `next` of a page of this list";
  return { ok: false, issues: [{ path: "after", code: "bad-mark", message }] };
}

/** The query of a list, typed, with the book that it asks. */
export function readListQuery(
  query: Readonly<Record<string, string>>,
): Outcome<ListQuestion & { book: "own" | "demo" }> {
  const read = check(listQuery, query);
  if (!read.ok) return read;
  const { book = "own", deleted, whole, newestFirst, limit = PAGE_USUAL, after, ...asked } = read.value;
  const mark = after === undefined ? undefined : readMark(after);
  if (mark?.ok === false) return mark;
  const flags = {
    deleted: deleted === "true",
    whole: whole === "true",
    newestFirst: newestFirst === "true",
  };
  return { ok: true, value: { ...asked, ...flags, book, limit, after: mark?.value } };
}

export const invalid = (c: Context, issues: readonly Issue[], error?: string) =>
  sendProblem(c, 400, invalidRequest(issues, error));

export async function readBody<T>(c: Context, schema: z.ZodType<T>, maxParts: number): Promise<Outcome<T>> {
  const text = readText(await c.req.arrayBuffer(), "");
  if (!text.ok) return text;
  const json = readJson(text.value, "", maxParts);
  return json.ok ? check(schema, json.value) : json;
}

/** Revision of an If-Match header, strong or weak. */
function matchedRevision(header: string | undefined): Outcome<number | undefined> {
  if (header === undefined) return { ok: true, value: undefined };
  const digits = /^(?:W\/)?"(\d{1,10})"$/.exec(header.trim())?.[1];
  if (digits !== undefined) return { ok: true, value: Number(digits) };
  const message = `If-Match: got ${JSON.stringify(header.slice(0, 40))}, must be the ETag of the entry, as "3"`;
  return { ok: false, issues: [{ path: "If-Match", code: "bad-etag", message }] };
}

/** The revision that the writer saw, from the header or beside the document. */
export function seenRevision(c: Context, beside: number | undefined): Outcome<number | undefined> {
  const header = matchedRevision(c.req.header("if-match"));
  if (!header.ok || header.value === undefined || beside === undefined || beside === header.value) {
    return header.ok ? { ok: true, value: header.value ?? beside } : header;
  }
  const message = `revision: got ${beside}, but If-Match says ${header.value}`;
  return { ok: false, issues: [{ path: "revision", code: "out-of-step", message }] };
}
