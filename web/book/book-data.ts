import { get, set } from "idb-keyval";
import type { BookKind, Entry } from "../../model/book/kinds.ts";

import { noteStatus } from "./key-needed.ts";

/** What of the book the page shows, fetched whole and kept by the device for the next time without a network. */

export const SHOWN_KINDS = [
  "fields",
  "cuts",
  "readings",
  "lots",
  "sites",
  "machines",
  "people",
  "prices",
  "herds",
] as const satisfies readonly BookKind[];
export type ShownKind = (typeof SHOWN_KINDS)[number];

export type Entries = { readonly [K in ShownKind]: readonly Entry<K>[] };

export const NO_ENTRIES: Entries = {
  fields: [],
  cuts: [],
  readings: [],
  lots: [],
  sites: [],
  machines: [],
  people: [],
  prices: [],
  herds: [],
};

/** Why the book could not be read: without a network, for lack of a key, or as the server said. */
export interface BookTrouble {
  readonly kind: "no-signal" | "sign-in" | "server";
  readonly message: string;
}

export type Fetched<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly trouble: BookTrouble };

const LIMIT_MS = 20_000;

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null;

/** Asks the server for JSON; whatever goes wrong comes back in words. */
export async function fetchJson<T>(path: string, options: RequestInit = {}): Promise<Fetched<T>> {
  let status = 0;
  try {
    const response = await fetch(path, {
      cache: "no-store",
      signal: AbortSignal.timeout(LIMIT_MS),
      ...options,
    });
    status = response.status;
    noteStatus(status);
    const body: unknown = await response.json();
    if (response.ok) return { ok: true, value: body as T };
    const message = isRecord(body) && typeof body.message === "string" ? body.message : `status ${status}`;
    return { ok: false, trouble: { kind: status === 401 ? "sign-in" : "server", message } };
  } catch {
    const message =
      status === 0
        ? "The server cannot be reached."
        : `The server answered with status ${status} and no text.`;
    return { ok: false, trouble: { kind: "no-signal", message } };
  }
}

/** Most entries of one page of a list, as the server allows. */
const PAGE = 500;
/** Readings and cuts of many years: the newest are shown, the rest is in the tables. */
const MOST_PAGES = 4;

async function listOf<K extends ShownKind>(
  kind: K,
  which: "own" | "demo",
): Promise<Fetched<readonly Entry<K>[]>> {
  const entries: Entry<K>[] = [];
  let after = "";
  for (let page = 0; page < MOST_PAGES; page += 1) {
    const of = which === "demo" ? "&book=demo" : "";
    const query = `limit=${PAGE}&newestFirst=true${of}${after === "" ? "" : `&after=${after}`}`;
    const got = await fetchJson<{ entries: readonly Entry<K>[]; next: string | null }>(
      `api/book/${kind}?${query}`,
    );
    if (!got.ok) return got;
    entries.push(...got.value.entries);
    if (got.value.next === null) break;
    after = got.value.next;
  }
  return { ok: true, value: entries };
}

export async function fetchEntries(which: "own" | "demo" = "own"): Promise<Fetched<Entries>> {
  const lists = await Promise.all(
    SHOWN_KINDS.map(async (kind) => [kind, await listOf(kind, which)] as const),
  );
  const found: [ShownKind, readonly Entry[]][] = [];
  for (const [kind, list] of lists) {
    if (!list.ok) return list;
    found.push([kind, list.value]);
  }
  return { ok: true, value: Object.fromEntries(found) as unknown as Entries };
}

/** One entry put where it belongs, or taken out where it was deleted. */
export function withEntry(entries: Entries, kind: BookKind, entry: Entry): Entries {
  const shown = SHOWN_KINDS.find((one) => one === kind);
  if (shown === undefined) return entries;
  const before: readonly Entry[] = entries[shown];
  const known = before.some(({ id }) => id === entry.id);
  const rest = before.flatMap((one) => (one.id !== entry.id ? [one] : entry.deleted ? [] : [entry]));
  return { ...entries, [shown]: known || entry.deleted ? rest : [entry, ...rest] };
}

const KEY = "swathclock.book";

function readEntries(value: unknown): Entries | null {
  if (!isRecord(value)) return null;
  const whole = (list: unknown) =>
    Array.isArray(list) &&
    list.every((one: unknown) => isRecord(one) && typeof one.id === "string" && isRecord(one.doc));
  return SHOWN_KINDS.every((kind) => whole(value[kind])) ? (value as unknown as Entries) : null;
}

/** The book as the device last saw it; null where it never did. */
export async function keptEntries(): Promise<Entries | null> {
  try {
    return readEntries(await get(KEY));
  } catch {
    return null;
  }
}

export async function keepEntries(entries: Entries): Promise<void> {
  try {
    await set(KEY, entries);
  } catch {
    // A device that keeps nothing has no book without a network.
  }
}

/** Somebody signed out of a shared device: what they saw goes with them. */
export const forgetEntries = (): Promise<void> => keepEntries(NO_ENTRIES);
