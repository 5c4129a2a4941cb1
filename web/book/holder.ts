/** Who asks, as the server sees it. */
export interface Session {
  readonly keysNeeded: boolean;
  readonly holder: { readonly name: string; readonly role: "edit" | "view" } | null;
  readonly calendarToken: string | null;
}

/** Whose changes this device shows and sends, kept by it: without a signal nobody else can say who is signed in. */
export type Who =
  /** A server without keys: there is nobody to tell apart. */
  | { readonly kind: "all" }
  | { readonly kind: "holder"; readonly name: string; readonly mayEdit: boolean }
  /** Signed out: nobody's changes but those that were made by nobody. */
  | { readonly kind: "nobody" };

const KEY = "swathclock-book-holder";
const NOBODY = "";

/** Where the device keeps nothing. */
let inPage: string | null = null;

function kept(): string | null {
  try {
    return localStorage.getItem(KEY) ?? inPage;
  } catch {
    return inPage;
  }
}

function keep(name: string | null): void {
  inPage = name;
  try {
    if (name === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, name);
  } catch {
    // It lasts as long as the page.
  }
}

export function whoNow(): Who {
  const text = kept();
  if (text === null) return { kind: "all" };
  const [role, name] = text.split(":");
  return name === undefined ? { kind: "nobody" } : { kind: "holder", name, mayEdit: role === "edit" };
}

/** As the server said it, or as somebody signed out. */
export function noteSession({ keysNeeded, holder }: Pick<Session, "keysNeeded" | "holder">): void {
  keep(keysNeeded ? (holder ? `${holder.role}:${holder.name}` : NOBODY) : null);
}

/** Whether a change is one's own: made under one's key, or by nobody. */
export function isOwn(who: Who, holder: string | undefined): boolean {
  return who.kind === "all" || holder === undefined || (who.kind === "holder" && who.name === holder);
}
