import { afterEach, expect, test, vi } from "vitest";
import { whoNow } from "../../../web/book/holder.ts";
import { fetchSession, isSigningOut, signIn, signOut } from "../../../web/book/session.ts";

afterEach(() => vi.unstubAllGlobals());

test("signing out without a signal is out here at once, and told to the server before anything else", async () => {
  const asked: string[] = [];
  let up = true;
  let holder: object | null = null;
  vi.stubGlobal("fetch", async (_path: string, { method = "GET" }: RequestInit = {}) => {
    if (!up) throw new TypeError("no network");
    asked.push(method);
    if (method === "POST") holder = { name: "anna", role: "edit" };
    if (method === "DELETE") holder = null;
    return Response.json({ keysNeeded: true, holder, calendarToken: null });
  });
  await signIn("key");
  expect(whoNow()).toEqual({ kind: "holder", name: "anna", mayEdit: true });
  up = false;
  expect(await signOut()).toBe(false);
  expect([isSigningOut(), whoNow().kind]).toEqual([true, "nobody"]);
  expect(await fetchSession()).toMatchObject({ ok: true, value: { holder: null } });
  up = true;
  expect(await fetchSession()).toMatchObject({ ok: true, value: { holder: null } });
  expect([isSigningOut(), asked]).toEqual([false, ["POST", "DELETE", "GET"]]);
});
