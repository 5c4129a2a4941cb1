import { LRUCache } from "lru-cache";
import { asFailure, failureOfStatus, UpstreamFailure } from "./failure.ts";
import { beforeDeadline, type Network, type Reply, requestOnce, sleep } from "./network.ts";

/** One kind of document of a service: how it is read, how long it may be kept, what its errors mean. */
export interface DocumentKind<T> {
  /** For the log. */
  readonly name: string;
  readonly headers?: Readonly<Record<string, string>>;
  /** Reads a body of status 200. What it throws is the document's fault. */
  readonly read: (text: string) => T;
  /** Until when the document need not be asked for again, ms since 1970. */
  readonly freshUntilMs: (headers: Headers, nowMs: number, url: string) => number;
  /** What a status other than 200, 203 and 304 means. */
  readonly explain?: (reply: Reply) => UpstreamFailure;
  /** First wait before a retry, ms; doubled each time. */
  readonly backoffMs?: number;
}

export interface Held<T> {
  readonly value: T;
  /** The last time the service said that this is its answer: a 304 counts. */
  readonly checkedMs: number;
}

interface Entry<T> extends Held<T> {
  readonly lastModified: string | null;
  readonly freshUntilMs: number;
  /** Characters of its body. */
  readonly size: number;
}

const MAX_TRIES = 3;
const BACKOFF_MS = 500;
/** A retry must leave itself this long to be answered. */
const LEAST_TRY_MS = 1000;
/** No Retry-After is followed longer than this. */
const LONGEST_PAUSE_MS = 86_400_000;
/** Characters of answers kept per kind of document. */
const MAX_KEPT_CHARS = 64_000_000;

export interface Shelf<T> {
  /** The document at this address, before the deadline. @throws UpstreamFailure */
  readonly get: (url: string, deadlineMs: number) => Promise<Held<T>>;
  readonly forget: (url: string) => void;
}

/**
 * Documents of one kind by their address: fresh ones from memory, one request in flight for each address, conditional
 * requests where the service gave a Last-Modified, at most three tries, and silence while the service asked for it.
 */
export function openShelf<T>(network: Network, kind: DocumentKind<T>): Shelf<T> {
  const entries = new LRUCache<string, Entry<T>>({ max: 1000, maxSize: MAX_KEPT_CHARS });
  const inFlight = new Map<string, Promise<Held<T>>>();
  let silentUntilMs = Number.NEGATIVE_INFINITY;

  function store(url: string, value: T, reply: Reply, lastModified: string | null, size: number): Entry<T> {
    const nowMs = network.nowMs();
    const freshUntilMs = kind.freshUntilMs(reply.headers, nowMs, url);
    const entry = { value, checkedMs: nowMs, lastModified, freshUntilMs, size: Math.max(1, size) };
    entries.set(url, entry, { size: entry.size });
    return entry;
  }

  async function fetchOnce(url: string, deadlineMs: number): Promise<Held<T>> {
    const before = entries.peek(url);
    const headers: Record<string, string> = { ...kind.headers };
    if (before?.lastModified) headers["If-Modified-Since"] = before.lastModified;
    const reply = await requestOnce(network, url, headers, deadlineMs);
    if (reply.status === 304 && before !== undefined) {
      const lastModified = reply.headers.get("Last-Modified") ?? before.lastModified;
      return store(url, before.value, reply, lastModified, before.size);
    }
    if (reply.status === 203)
      network.log(`${kind.name}: answered 203: this version is deprecated or a trial`);
    if (reply.status === 200 || reply.status === 203) {
      const value = kind.read(reply.text);
      return store(url, value, reply, reply.headers.get("Last-Modified"), reply.text.length);
    }
    const failure = kind.explain?.(reply) ?? failureOfStatus(reply.status, reply.text);
    throw withRetryAfter(failure, reply.headers, network.nowMs());
  }

  async function fetchWithRetries(url: string, deadlineMs: number): Promise<Held<T>> {
    for (let tries = 1; ; tries += 1) {
      try {
        return await fetchOnce(url, deadlineMs);
      } catch (error) {
        const failure = asFailure(error);
        if (failure.pauseMs > 0) silentUntilMs = Math.max(silentUntilMs, network.nowMs() + failure.pauseMs);
        // Half of the wait is left to chance, so that many askers do not come back together.
        const waitMs = (kind.backoffMs ?? BACKOFF_MS) * 2 ** (tries - 1) * (0.5 + network.random() / 2);
        const inTime = network.nowMs() + waitMs + LEAST_TRY_MS < deadlineMs;
        if (!failure.retryHelps || tries >= MAX_TRIES || !inTime) throw failure;
        await sleep(network, waitMs);
      }
    }
  }

  function ask(url: string, deadlineMs: number): Promise<Held<T>> {
    const underWay = inFlight.get(url);
    if (underWay !== undefined) return underWay;
    const work = fetchWithRetries(url, deadlineMs).finally(() => inFlight.delete(url));
    inFlight.set(url, work);
    return work;
  }

  return {
    forget: (url) => entries.delete(url),
    get: async (url, deadlineMs) => {
      const nowMs = network.nowMs();
      const kept = entries.get(url);
      if (kept !== undefined && nowMs < kept.freshUntilMs) return kept;
      if (nowMs < silentUntilMs && !inFlight.has(url)) {
        const seconds = Math.ceil((silentUntilMs - nowMs) / 1000);
        const message = `asked to be left alone for another ${seconds} s`;
        throw new UpstreamFailure({ code: "rate-limited", message });
      }
      return beforeDeadline(network, ask(url, deadlineMs), deadlineMs);
    },
  };
}

/** A Retry-After in seconds or as a date lengthens the pause of a service that was asked too often or is down. */
function withRetryAfter(failure: UpstreamFailure, headers: Headers, nowMs: number): UpstreamFailure {
  const text = headers.get("Retry-After");
  if (text === null) return failure;
  const waitMs = /^\d+$/.test(text.trim()) ? Number(text) * 1000 : Date.parse(text) - nowMs;
  if (!(waitMs > 0)) return failure;
  const { code, message } = failure;
  return new UpstreamFailure({ code, message, pauseMs: Math.min(waitMs, LONGEST_PAUSE_MS) });
}

/** The end of freshness that the service itself states: Cache-Control's max-age, else Expires; null where neither is. */
export function statedFreshUntilMs(headers: Headers, nowMs: number): number | null {
  const control = headers.get("Cache-Control") ?? "";
  const age = /(?:^|[\s,])(?:s-maxage|max-age)\s*=\s*"?(\d+)/i.exec(control)?.[1];
  if (age !== undefined) return nowMs + Number(age) * 1000;
  const expiresMs = Date.parse(headers.get("Expires") ?? "");
  return Number.isFinite(expiresMs) ? expiresMs : null;
}
