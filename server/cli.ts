import { once } from "node:events";
import type { Outcome } from "../model/limits.ts";
import { BookFailure } from "./book/failure.ts";
import { bookWhenAsked } from "./book/open-book.ts";
import { type BookSettings, readBookSettings } from "./book/settings.ts";
import { runCli } from "./run-cli.ts";
import { theModel } from "./the-model.ts";

/** All of standard input; a terminal counts as empty, so that a forgotten "<" does not wait for ever. */
async function readAll(): Promise<Buffer> {
  if (process.stdin.isTTY) return Buffer.alloc(0);
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(Buffer.from(part));
  return Buffer.concat(parts);
}

function messageOf(settings: Outcome<BookSettings> | null): string {
  return settings?.ok === false
    ? settings.issues.map(({ message }) => message).join("; ")
    : "there is no book";
}

// A reader that closes early (as `| head`) is no failure of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exit(error.code === "EPIPE" ? 0 : 1);
});

const words = process.argv.slice(2);
const opening = words[0] === "book" ? readBookSettings(process.env) : null;
const opened = opening?.ok ? bookWhenAsked(opening.value, Date.now) : null;
const book = async () => {
  if (opened === null) throw new BookFailure(503, "book-unavailable", messageOf(opening));
  return (await opened.open()).book;
};
const write = async (text: string) => {
  if (!process.stdout.write(text)) await once(process.stdout, "drain");
};
const result = await runCli(words, readAll, theModel, { book, nowMs: Date.now, write });
await opened?.close();
process.exitCode = result.exitCode;
if (result.stderr !== "") process.stderr.write(result.stderr);
if (result.stdout !== "") process.stdout.write(result.stdout);
