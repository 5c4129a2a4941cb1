import type { ContentfulStatusCode } from "hono/utils/http-status";
import { type ErrorBody, plainProblem } from "../problem.ts";

/** Something that the book could not do, in words for the one who asked. Nothing was changed. */
export class BookFailure extends Error {
  readonly status: ContentfulStatusCode;
  readonly body: ErrorBody;

  constructor(status: ContentfulStatusCode, error: string, message: string, cause?: unknown) {
    super(message, { cause });
    this.status = status;
    this.body = plainProblem(error, message);
  }
}

const FULL =
  "the book's disk is full: nothing was changed. Free some space and send it again; reading still works";
const FAILING =
  "the book's disk could not be read or written, as a full or a failing one: nothing was changed. Look at its free space and its health, then send it again";
const NOT_OPENED =
  "its disk is full or failing, and nothing of it can be read yet. Free some space there, or name another place (SWATHCLOCK_BOOK), and ask again";
const READ_ONLY =
  "the book can only be read: its file or folder is write-protected, or the database allows no writing. Nothing was changed";
const BUSY = "the book is being written by another program: nothing was changed. Send it again";
const BROKEN =
  "the book's file is damaged or no book: nothing was changed. Put a backup in its place (they lie beside it) and start again";
const UNREACHABLE = "the book cannot be reached just now: nothing is known to have changed. Send it again";

const full = (cause: unknown) => new BookFailure(507, "book-full", FULL, cause);
const readOnly = (cause: unknown) => new BookFailure(503, "book-read-only", READ_ONLY, cause);
const busy = (cause: unknown) => new BookFailure(503, "book-busy", BUSY, cause);
const unreachable = (cause: unknown) => new BookFailure(503, "book-unavailable", UNREACHABLE, cause);

export const readOnlyFailure = (): BookFailure => readOnly(undefined);

/** What a database's error means to the one who asked, by SQLite's codes and PostgreSQL's; null where it means nothing. */
export function bookFailureOf(error: unknown): BookFailure | null {
  if (error instanceof BookFailure) return error;
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  if (code === "SQLITE_FULL" || code === "53100") return full(error);
  if (code.startsWith("SQLITE_IOERR")) return new BookFailure(507, "book-disk", FAILING, error);
  if (code.startsWith("SQLITE_READONLY") || code === "25006" || code === "42501") return readOnly(error);
  if (code.startsWith("SQLITE_BUSY") || code === "40001" || code === "40P01" || code === "55P03")
    return busy(error);
  if (code === "SQLITE_CORRUPT" || code === "SQLITE_NOTADB")
    return new BookFailure(503, "book-damaged", BROKEN, error);
  const reached = !/^(ECONN|ENOTFOUND|EHOSTUNREACH|ETIMEDOUT|EPIPE|57P0|08|53300)/.test(code);
  const cut =
    error instanceof Error && /Connection terminated|timeout exceeded when trying/.test(error.message);
  if (!reached || cut || code === "SQLITE_CANTOPEN") return unreachable(error);
  return null;
}

/** The same of a book that is only being opened: nothing of it can be read yet. */
export function openingFailureOf(error: unknown, where: string): BookFailure | null {
  const known = bookFailureOf(error);
  if (known === null || known.status !== 507) return known;
  return new BookFailure(507, known.body.error, `${where} cannot be opened: ${NOT_OPENED}`, error);
}
