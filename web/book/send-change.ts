import type { Entry } from "../../model/book/kinds.ts";
import type { Issue } from "../../model/limits.ts";
import type { Change, Held } from "./queue.ts";

/** One change on its way to the server, and what came of it. */

/** Why nothing more is sent for now: it will be tried again. */
export type Wait = "no-signal" | "sign-in" | "view-only" | "later";

export type Sent =
  | { readonly kind: "taken"; readonly entry: Entry }
  | { readonly kind: "held"; readonly held: Held }
  | { readonly kind: "wait"; readonly why: Wait; readonly message: string | null };

export interface BookRequest {
  readonly method: "POST" | "PUT" | "DELETE";
  readonly path: string;
  readonly body: string | null;
}

/** How a change is asked for: the same each time, so that a retry does nothing twice. */
export function requestOf({ kind, id, act, doc, revision }: Change): BookRequest {
  const path = `api/book/${kind}`;
  if (act === "make") return { method: "POST", path, body: JSON.stringify({ id, doc }) };
  const one = `${path}/${id}`;
  if (act === "remove") return { method: "DELETE", path: `${one}?revision=${revision}`, body: null };
  return { method: "PUT", path: one, body: JSON.stringify({ revision, doc }) };
}

interface ErrorAnswer {
  readonly error: string;
  readonly message: string;
  readonly issues: readonly Issue[];
  readonly entry?: Entry;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null;

const isEntry = (value: unknown): value is Entry =>
  isRecord(value) &&
  typeof value.id === "string" &&
  typeof value.revision === "number" &&
  isRecord(value.doc);

const isError = (value: unknown): value is ErrorAnswer =>
  isRecord(value) && typeof value.error === "string" && typeof value.message === "string";

const wait = (why: Wait, message: string | null = null): Sent => ({ kind: "wait", why, message });

/** What an answer means for its change. Whatever does not come from the book's own server is waited out. */
export function sentOf(change: Change, status: number, body: unknown): Sent {
  if (status === 200 || status === 201)
    return isEntry(body) ? { kind: "taken", entry: body } : wait("no-signal");
  if (!isError(body)) return wait("no-signal");
  const { error, message } = body;
  if (status === 401) return wait("sign-in");
  if (status === 403 && error === "view-only") return wait("view-only", message);
  if (status === 429 || status >= 500) return wait("later", message);
  const entry = isEntry(body.entry) ? body.entry : null;
  if (entry !== null && (status === 409 || status === 412)) {
    if (change.act === "remove" && entry.deleted) return { kind: "taken", entry };
    return { kind: "held", held: { kind: "conflict", entry } };
  }
  if (status === 404 && change.act !== "make") return { kind: "held", held: { kind: "missing" } };
  const issues = Array.isArray(body.issues) ? body.issues : [];
  return { kind: "held", held: { kind: "refused", message, issues } };
}

/** A network that hangs is no network, ms. */
const LIMIT_MS = 20_000;

export async function sendChange(change: Change): Promise<Sent> {
  const { method, path, body } = requestOf(change);
  try {
    const response = await fetch(path, {
      method,
      cache: "no-store",
      signal: AbortSignal.timeout(LIMIT_MS),
      ...(body === null ? {} : { body, headers: { "Content-Type": "application/json" } }),
    });
    return sentOf(change, response.status, await response.json());
  } catch {
    return wait("no-signal");
  }
}
