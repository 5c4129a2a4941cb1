import type { Issue, Outcome } from "../../model/limits.ts";
import { check } from "../check.ts";
import { readJson } from "../read-json.ts";
import { readText } from "../read-text.ts";
import { bookDocumentSchema, MAX_ENTRIES } from "../schemas/book/document.ts";
import { BOOK_FORMAT, BOOK_VERSION, type DocumentEntries } from "./document.ts";

/** A whole book has far more parts than a request, and its documents lie deeper. */
const PARTS = 50_000_000;
const SHAPE = { items: MAX_ENTRIES, depth: 20 };

function refuse(path: string, code: string, message: string): { readonly ok: false; issues: Issue[] } {
  return { ok: false, issues: [{ path, code, message }] };
}

/** What the document says of itself, before its entries are looked at. */
function strangerIssue(value: unknown): { readonly ok: false; issues: Issue[] } | null {
  const { format, version } =
    typeof value === "object" && value !== null ? (value as Partial<Record<string, unknown>>) : {};
  if (format !== BOOK_FORMAT) {
    const got = format === undefined ? "no format" : JSON.stringify(format);
    return refuse("format", "not-a-book", `format: got ${got}, must be "${BOOK_FORMAT}": this is no book`);
  }
  if (typeof version === "number" && Number.isInteger(version) && version > BOOK_VERSION) {
    const message = `version: got ${version}, must be at most ${BOOK_VERSION}: a newer Swathclock wrote this document; import it with that one`;
    return refuse("version", "newer-document", message);
  }
  return null;
}

/** A book's document from its bytes, every entry held to the schema of its kind. */
export function readDocument(bytes: Uint8Array | ArrayBuffer): Outcome<DocumentEntries> {
  const text = readText(bytes, "");
  if (!text.ok) return text;
  const json = readJson(text.value, "", PARTS, SHAPE);
  if (!json.ok) return json;
  const stranger = strangerIssue(json.value);
  if (stranger !== null) return stranger;
  const document = check(bookDocumentSchema, json.value);
  return document.ok ? { ok: true, value: document.value.entries } : document;
}
