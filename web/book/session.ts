import { type BookTrouble, type Fetched, fetchJson } from "./book-data.ts";

/** Who asks, as the server sees it. */
export interface Session {
  readonly keysNeeded: boolean;
  readonly holder: { readonly name: string; readonly role: "edit" | "view" } | null;
  readonly calendarToken: string | null;
}

const PATH = "api/session";

export const fetchSession = (): Promise<Fetched<Session>> => fetchJson(PATH);

export const signOut = (): Promise<Fetched<Session>> => fetchJson(PATH, { method: "DELETE" });

/** The key is changed for a cookie that no script can read; it is kept nowhere else. */
export async function signIn(key: string): Promise<Fetched<Session>> {
  const body = JSON.stringify({ key });
  const answer = await fetchJson<Session>(PATH, {
    method: "POST",
    body,
    headers: { "Content-Type": "application/json" },
  });
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
