import type { Context, MiddlewareHandler } from "hono";
import { getCookie } from "hono/cookie";
import { createMiddleware } from "hono/factory";
import { type AccessKey, type Holder, holderOfKey, holderOfToken } from "./access-keys.ts";
import { endedSessions } from "./ended-sessions.ts";
import { failureLimit } from "./failure-limit.ts";
import { plainProblem, sendProblem } from "./problem.ts";

/** Who may ask, and what a browser may be made to ask. */
export interface AccessSettings {
  /** None = this machine alone, and no key. */
  readonly keys: readonly AccessKey[];
  /** True where a proxy of one's own stands before the server: its X-Forwarded-... headers are believed. */
  readonly trustProxy: boolean;
  /** Where ended sessions are kept past a restart of the server; left out = in its memory alone. */
  readonly endedFile?: string | undefined;
}

export const COOKIE = "swathclock-session";

export interface AccessParts extends AccessSettings {
  readonly nowMs: () => number;
  /** The address at the other end of the connection. */
  readonly clientAddress: (c: Context) => string;
}

const READING = new Set(["GET", "HEAD"]);
const LOOPBACK_NAMES = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/i;

/** "Farm.example:8787" without its port. */
const nameOf = (host: string): string => host.replace(/:\d*$/, "");

const isHttps = (c: Context, trustProxy: boolean): boolean =>
  new URL(c.req.url).protocol === "https:" ||
  (trustProxy && c.req.header("x-forwarded-proto")?.split(",").at(-1)?.trim() === "https");

/** The host that the browser asked for. */
function askedHost(c: Context, trustProxy: boolean): string {
  const forwarded = trustProxy ? c.req.header("x-forwarded-host")?.split(",").at(-1)?.trim() : undefined;
  return forwarded ?? c.req.header("host") ?? new URL(c.req.url).host;
}

/** True where a page of another site made the browser send this. */
function isFromElsewhere(c: Context, trustProxy: boolean): boolean {
  const site = c.req.header("sec-fetch-site");
  if (site === "cross-site" || site === "same-site") return true;
  const origin = c.req.header("origin");
  if (origin === undefined) return false;
  const host = askedHost(c, trustProxy);
  return !URL.canParse(origin) || new URL(origin).host.toLowerCase() !== host.toLowerCase();
}

/** Without keys the server speaks to this machine alone: a foreign name that leads here is a trick on a browser. */
function isForeignName(c: Context, trustProxy: boolean): boolean {
  return !LOOPBACK_NAMES.test(nameOf(askedHost(c, trustProxy)));
}

function clientOf(c: Context, { trustProxy, clientAddress }: AccessParts): string {
  const forwarded = trustProxy ? c.req.header("x-forwarded-for")?.split(",").at(-1)?.trim() : undefined;
  return forwarded || clientAddress(c);
}

/** What a request carries to say who asks. */
type Shown =
  | { readonly kind: "none" }
  | { readonly kind: "key"; readonly key: string }
  | { readonly kind: "session" | "calendar"; readonly token: string };

function shownBy(c: Context): Shown {
  const header = c.req.header("authorization");
  const key = header === undefined ? undefined : /^Bearer +(\S+)$/i.exec(header)?.[1];
  if (header !== undefined) return { kind: "key", key: key ?? "" };
  const calendar =
    READING.has(c.req.method) && c.req.path.endsWith(".ics") ? c.req.query("token") : undefined;
  if (calendar !== undefined) return { kind: "calendar", token: calendar };
  const token = getCookie(c, COOKIE);
  return token === undefined ? { kind: "none" } : { kind: "session", token };
}

declare module "hono" {
  interface ContextVariableMap {
    /** Whose key came with the request; undefined where none is needed. */
    holder: Holder | undefined;
  }
}

const refuse = (c: Context, status: 401 | 403 | 429, error: string, message: string) =>
  sendProblem(c, status, plainProblem(error, message));

/** Holds the keys and counts the wrong ones; the routes of the session use the same count. */
export function accessOf(parts: AccessParts) {
  const { keys, nowMs, trustProxy } = parts;
  const limit = failureLimit(nowMs);
  const ended = endedSessions(parts.endedFile, nowMs);

  const tooMany = (c: Context, waitS: number) => {
    c.header("Retry-After", String(waitS));
    return refuse(c, 429, "too-many-failures", `too many wrong keys from your address: wait ${waitS} s`);
  };

  /** The holder of a key that was shown, wrong ones counted; null = it is none. */
  const holderOf = (c: Context, shown: Exclude<Shown, { kind: "none" }>): Holder | null => {
    const holder =
      shown.kind === "key"
        ? holderOfKey(keys, shown.key)
        : ended.has(shown.token)
          ? null
          : holderOfToken(keys, shown.kind, shown.token, nowMs());
    // A session that is over is no guess at a key.
    if (holder === null && shown.kind !== "session") limit.failed(clientOf(c, parts));
    return holder;
  };

  /** On every request: whose pages may make a browser send it. */
  const sameSite: MiddlewareHandler = async (c, next) => {
    if (keys.length === 0 && isForeignName(c, trustProxy)) {
      const message = `this server speaks to its own machine, under localhost or 127.0.0.1, and not as "${nameOf(askedHost(c, trustProxy)).slice(0, 80)}"`;
      return refuse(c, 403, "wrong-host", message);
    }
    if (!READING.has(c.req.method) && isFromElsewhere(c, trustProxy)) {
      return refuse(c, 403, "wrong-origin", "a page of another site may send nothing here");
    }
    return next();
  };

  /** On /api: a key where there are keys, and one that may edit for what changes the book. */
  const needsKey = createMiddleware(async (c, next) => {
    if (keys.length === 0 || c.req.path === "/api/session") return next();
    const shown = shownBy(c);
    if (shown.kind === "none") {
      c.header("WWW-Authenticate", "Bearer");
      return refuse(
        c,
        401,
        "unauthorized",
        "needs an access key: Authorization: Bearer KEY, or POST /api/session",
      );
    }
    // Asked before, since a wrong one counts. A right one is never held back: the key's length keeps guesses out.
    const waitS = shown.kind === "session" ? 0 : limit.waitS(clientOf(c, parts));
    const holder = holderOf(c, shown);
    if (holder === null && waitS > 0) return tooMany(c, waitS);
    if (holder === null) {
      c.header("WWW-Authenticate", "Bearer");
      return refuse(c, 401, "unauthorized", "the access key is not the right one, or the session is over");
    }
    const changes = !READING.has(c.req.method) && /^\/api\/book(\/|$)/.test(c.req.path);
    if (changes && holder.role !== "edit") {
      return refuse(c, 403, "view-only", `the key of "${holder.name}" may look, not change`);
    }
    c.set("holder", holder);
    return next();
  });

  return {
    keys,
    nowMs,
    sameSite,
    needsKey,
    isHttps: (c: Context) => isHttps(c, trustProxy),
    /** Signs in with a key: its holder, or the answer that refuses. */
    signIn: (c: Context, key: string): AccessKey | Response => {
      const waitS = limit.waitS(clientOf(c, parts));
      const holder = holderOf(c, { kind: "key", key });
      const own = keys.find(({ name }) => name === holder?.name);
      if (own === undefined && waitS > 0) return tooMany(c, waitS);
      if (own === undefined) return refuse(c, 401, "unauthorized", "the access key is not the right one");
      limit.succeeded(clientOf(c, parts));
      return own;
    },
    /** Ends the session of the request: its cookie, or a copy of it, opens nothing more. */
    signOut: (c: Context): void => {
      const token = getCookie(c, COOKIE);
      if (token !== undefined && holderOfToken(keys, "session", token, nowMs()) !== null) ended.end(token);
    },
    /** Who asks, where the request says so, or the answer that refuses; on the session's own address, which needs no key. */
    holderNow: (c: Context): Holder | null | Response => {
      const shown = shownBy(c);
      if (shown.kind === "none") return null;
      // As everywhere: a right key is never held back, a wrong one counts and is not listened to for ever.
      const waitS = shown.kind === "session" ? 0 : limit.waitS(clientOf(c, parts));
      const holder = holderOf(c, shown);
      return holder === null && waitS > 0 ? tooMany(c, waitS) : holder;
    },
  };
}

export type Access = ReturnType<typeof accessOf>;
