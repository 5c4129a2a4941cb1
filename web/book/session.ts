import { type BookTrouble, type Fetched, fetchJson } from "./book-data.ts";
import { noteSession, type Session } from "./holder.ts";

const PATH = "api/session";

/** Nobody is signed in, on a server that asks for a key. */
export const SIGNED_OUT: Session = { keysNeeded: true, holder: null, calendarToken: null };

/** Who asks; somebody who signed out here is out, whether or not the server could be told of it yet. */
export async function fetchSession(): Promise<Fetched<Session>> {
  if (!(await finishSignOut())) return { ok: true, value: SIGNED_OUT };
  const got = await fetchJson<Session>(PATH);
  if (got.ok) noteSession(got.value);
  return got;
}

const OUT_KEY = "swathclock-book-sign-out";
let outInPage = false;
let telling: Promise<Fetched<Session>> | null = null;

function noteOut(out: boolean): void {
  outInPage = out;
  try {
    if (out) localStorage.setItem(OUT_KEY, "1");
    else localStorage.removeItem(OUT_KEY);
  } catch {
    // It lasts as long as the page.
  }
}

/** Whether somebody signed out here and the server has not heard of it. */
export function isSigningOut(): boolean {
  try {
    return outInPage || localStorage.getItem(OUT_KEY) !== null;
  } catch {
    return outInPage;
  }
}

/** Tells the server of a sign-out that waits; false while it does not answer. */
export async function finishSignOut(): Promise<boolean> {
  if (!isSigningOut()) return true;
  telling ??= fetchJson<Session>(PATH, { method: "DELETE" }).finally(() => {
    telling = null;
  });
  const got = await telling;
  if (got.ok) noteOut(false);
  return got.ok;
}

/** Out on this device at once, on the server as soon as it can be told: then true. */
export function signOut(): Promise<boolean> {
  noteOut(true);
  noteSession(SIGNED_OUT);
  return finishSignOut();
}

/** The key is changed for a cookie that no script can read; it is kept nowhere else. */
export async function signIn(key: string): Promise<Fetched<Session>> {
  await finishSignOut();
  const body = JSON.stringify({ key });
  const answer = await fetchJson<Session>(PATH, {
    method: "POST",
    body,
    headers: { "Content-Type": "application/json" },
  });
  if (answer.ok) {
    noteOut(false);
    noteSession(answer.value);
  }
  return answer.ok ? answer : { ok: false, trouble: said(answer.trouble) };
}

/** "sign-in" is what the server says of a wrong key. */
const said = (trouble: BookTrouble): BookTrouble =>
  trouble.kind === "sign-in"
    ? { ...trouble, message: "That key is not one of this server's. Nothing was changed." }
    : trouble;

/** What a session may do, in words; null where there are no keys. */
export function sessionWords({ keysNeeded, holder }: Session): string | null {
  if (!keysNeeded || holder === null) return null;
  return holder.role === "edit"
    ? `Signed in as ${holder.name}: may look and change.`
    : `Signed in as ${holder.name}: may look, not change. Editing is off.`;
}

export const mayEdit = (session: Session | null): boolean => session?.holder?.role !== "view";
