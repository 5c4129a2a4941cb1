import { createHash, createHmac, timingSafeEqual } from "node:crypto";
import type { Issue, Outcome } from "../model/limits.ts";

/** What a key lets its holder do: everything, or everything that changes nothing. */
export const ROLES = ["edit", "view"] as const;
export type Role = (typeof ROLES)[number];

/** Of a key only this is kept: it tells the key when it comes, and never becomes it again. */
export interface AccessKey {
  readonly name: string;
  readonly role: Role;
  /** SHA-256. */
  readonly hash: Buffer;
}

export interface Holder {
  readonly name: string;
  readonly role: Role;
}

const LEAST_LENGTH = 16;
const MOST_KEYS = 100;
const sha256 = (text: string): Buffer => createHash("sha256").update(text).digest();

/**
 * Named keys from `name:role:key`, with commas between. A message names the key's name or its place in the list, never
 * the key.
 */
export function readAccessKeys(text: string): Outcome<readonly AccessKey[]> {
  const issues: Issue[] = [];
  const path = "SWATHCLOCK_KEYS";
  const add = (code: string, message: string) => issues.push({ path, code, message: `${path}: ${message}` });
  const keys = text
    .split(",")
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .flatMap((part, i): AccessKey[] => {
      const [name = "", role = "", ...rest] = part.split(":");
      const key = rest.join(":");
      const which = `key ${i + 1}`;
      const known = ROLES.find((one) => one === role);
      if (!/^[A-Za-z0-9_-]{1,40}$/.test(name) || known === undefined || key === "") {
        add(
          "bad-key",
          `${which} must read NAME:edit:KEY or NAME:view:KEY, the name of letters, digits, - and _`,
        );
        return [];
      }
      if (!/^[\x21-\x2b\x2d-\x7e]+$/.test(key)) {
        add("bad-key", `the key of "${name}" must be printable ASCII without spaces and commas`);
      } else if (key.length < LEAST_LENGTH) {
        add(
          "too-short",
          `the key of "${name}" has ${key.length} characters, must have at least ${LEAST_LENGTH}`,
        );
      }
      return [{ name, role: known, hash: sha256(key) }];
    });
  if (new Set(keys.map(({ name }) => name)).size < keys.length) add("not-unique", "each name must come once");
  if (new Set(keys.map(({ hash }) => hash.toString("hex"))).size < keys.length)
    add("not-unique", "each key must come once");
  if (keys.length === 0 && issues.length === 0) add("empty", "must hold at least one NAME:edit:KEY");
  if (keys.length > MOST_KEYS) add("too-many", `got ${keys.length} keys, must be at most ${MOST_KEYS}`);
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: keys };
}

/** Whose key this is. Every key is compared, each in the same time, whichever fits. */
export function holderOfKey(keys: readonly AccessKey[], key: string): Holder | null {
  const hash = sha256(key);
  let holder: Holder | null = null;
  for (const { name, role, hash: own } of keys) {
    if (timingSafeEqual(hash, own)) holder = { name, role };
  }
  return holder;
}

/** What a token is for; a token of one is nothing to the other. */
export type TokenUse = "session" | "calendar";

const signature = ({ hash, name, role }: AccessKey, use: TokenUse, until: string): Buffer =>
  createHmac("sha256", hash).update(`swathclock ${use} ${name} ${role} ${until}`).digest();

/**
 * A token in place of the key: says who and until when, and stops with the key that it was made from.
 *
 * @param mark letters and digits that tell it from others of the same key and second, so that one can be ended alone
 */
export function makeToken(key: AccessKey, use: TokenUse, untilS: number, mark = ""): string {
  const until = mark === "" ? String(untilS) : `${untilS}-${mark}`;
  return `${key.name}.${until}.${signature(key, use, until).toString("base64url")}`;
}

export function holderOfToken(
  keys: readonly AccessKey[],
  use: TokenUse,
  token: string,
  nowMs: number,
): Holder | null {
  const match = /^([A-Za-z0-9_-]{1,40})\.((\d{1,12})(?:-[A-Za-z0-9]{1,40})?)\.([A-Za-z0-9_-]{43})$/.exec(
    token,
  );
  const key = keys.find(({ name }) => name === match?.[1]);
  if (!match || key === undefined) return null;
  const untilS = Number(match[3]);
  const fits = timingSafeEqual(Buffer.from(match[4] ?? "", "base64url"), signature(key, use, match[2] ?? ""));
  return fits && nowMs < untilS * 1000 ? { name: key.name, role: key.role } : null;
}
