import { homedir } from "node:os";
import { dirname, isAbsolute, join, resolve } from "node:path";
import type { Issue, Outcome } from "../../model/limits.ts";

export interface BookSettings {
  /** The file of the book; with a database of another engine, its folder holds the backups. */
  readonly file: string;
  /** PostgreSQL's address; null = the file. */
  readonly databaseUrl: string | null;
}

type Env = Readonly<Record<string, string | undefined>>;

/** The user's own folder for data, by the custom of the system. */
export function dataFolder(env: Env, platform: NodeJS.Platform = process.platform, home = homedir()): string {
  if (platform === "win32") return join(env.LOCALAPPDATA || join(home, "AppData", "Local"), "Swathclock");
  if (platform === "darwin") return join(home, "Library", "Application Support", "Swathclock");
  const base = env.XDG_DATA_HOME && isAbsolute(env.XDG_DATA_HOME) ? env.XDG_DATA_HOME : null;
  return join(base ?? join(home, ".local", "share"), "swathclock");
}

/** Reads SWATHCLOCK_BOOK and DATABASE_URL. An empty variable counts as not set. */
export function readBookSettings(env: Env): Outcome<BookSettings> {
  const issues: Issue[] = [];
  const file = env.SWATHCLOCK_BOOK ? resolve(env.SWATHCLOCK_BOOK) : join(dataFolder(env), "book.sqlite");
  if (env.SWATHCLOCK_BOOK && /[/\\]$/.test(env.SWATHCLOCK_BOOK)) {
    const message = `SWATHCLOCK_BOOK: got "${env.SWATHCLOCK_BOOK}", must be a file, as ${join(dirname(file), "book.sqlite")}`;
    issues.push({ path: "SWATHCLOCK_BOOK", code: "no-file", message });
  }
  const databaseUrl = env.DATABASE_URL || null;
  if (databaseUrl !== null && !/^postgres(ql)?:\/\/./.test(databaseUrl)) {
    // The address may hold a password: it is not repeated.
    const message =
      "DATABASE_URL: must begin with postgres:// ; without it the book is the file SWATHCLOCK_BOOK";
    issues.push({ path: "DATABASE_URL", code: "bad-url", message });
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: { file, databaseUrl } };
}
