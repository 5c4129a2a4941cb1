import type { Issue, Outcome } from "../model/limits.ts";

export interface Settings {
  readonly host: string;
  readonly port: number;
  /** Every /api request must carry it as a bearer token; null = no key, and then only loopback is served. */
  readonly accessKey: string | null;
}

const DEFAULT_PORT = 8787;
const MIN_KEY_LENGTH = 16;
const LOOPBACK = new Set(["127.0.0.1", "::1", "localhost"]);

export function isLoopback(host: string): boolean {
  return LOOPBACK.has(host);
}

/** Reads PORT, HOST and SWATHCLOCK_KEY. An empty variable counts as not set. */
export function readSettings(env: Readonly<Record<string, string | undefined>>): Outcome<Settings> {
  const issues: Issue[] = [];
  const portText = env.PORT || String(DEFAULT_PORT);
  const port = /^\d{1,5}$/.test(portText) ? Number(portText) : Number.NaN;
  if (!(port >= 0 && port <= 65_535)) {
    const message = `PORT: got "${portText}", must be a whole number from 0 (any free port) to 65535`;
    issues.push({ path: "PORT", code: "out-of-range", message });
  }
  const host = env.HOST || "127.0.0.1";
  const accessKey = env.SWATHCLOCK_KEY || null;
  if (accessKey !== null && !/^[\x21-\x7e]+$/.test(accessKey)) {
    const message = "SWATHCLOCK_KEY: must be printable ASCII without spaces, so that a header can carry it";
    issues.push({ path: "SWATHCLOCK_KEY", code: "bad-key", message });
  } else if (accessKey !== null && accessKey.length < MIN_KEY_LENGTH) {
    const message = `SWATHCLOCK_KEY: got ${accessKey.length} characters, must be at least ${MIN_KEY_LENGTH}`;
    issues.push({ path: "SWATHCLOCK_KEY", code: "too-short", message });
  }
  if (accessKey === null && !isLoopback(host)) {
    const message =
      `HOST: got "${host}", which other machines can reach; ` +
      `set SWATHCLOCK_KEY to an access key of at least ${MIN_KEY_LENGTH} characters, or leave HOST at 127.0.0.1`;
    issues.push({ path: "HOST", code: "key-needed", message });
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: { host, port, accessKey } };
}
