import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import type { AccessSettings } from "../../server/access.ts";
import { readAccessKeys } from "../../server/access-keys.ts";
import { FAILURES, senderOf } from "../../server/failure-limit.ts";
import { errorSchema } from "../../server/schemas/error.ts";
import { fakeApp } from "../support/app.ts";
import { emptyBook, testFolder } from "../support/book/books.ts";
import { SITE, withField } from "../support/book/docs.ts";

const EDIT = "edit-key-of-sixteen-or-more";
const VIEW = "view-key-of-sixteen-or-more";
const WRONG = "wrong-key-of-sixteen-or-more";

const keys = (() => {
  const read = readAccessKeys(`anna:edit:${EDIT},shed:view:${VIEW}`);
  if (!read.ok) throw new Error("keys");
  return read.value;
})();

let nowMs = Date.parse("2026-07-01T12:00:00Z");

async function sharedApp(access: Partial<AccessSettings> = {}) {
  const book = await withField(await emptyBook("sqlite"));
  return fakeApp({
    access: { keys, trustProxy: false, ...access },
    book: async () => book,
    nowMs: () => nowMs,
    clientAddress: (c) => c.req.header("test-address") ?? "192.0.2.1",
  });
}

type App = ReturnType<typeof fakeApp>;
const bearer = (key: string) => ({ authorization: `Bearer ${key}` });
const writeSite = (app: App, headers: Record<string, string>, id = "new") =>
  app.request(`/api/book/sites/${id}`, { method: "PUT", body: JSON.stringify({ doc: SITE }), headers });
const signIn = (app: App, key: string, headers: Record<string, string> = {}) =>
  app.request("/api/session", { method: "POST", body: JSON.stringify({ key }), headers });
const errorOf = async (response: Response) => errorSchema.parse(await response.json()).error;

describe("keys and their roles", () => {
  test("without one nothing of the API but the session; the page, its description and its health are open", async () => {
    const app = await sharedApp();
    for (const path of [
      "/api/samples",
      "/api/book/fields",
      "/api/book/export",
      "/api/book/due.ics",
      "/api/nothing",
    ]) {
      const response = await app.request(path);
      expect([path, response.status, await errorOf(response)]).toEqual([path, 401, "unauthorized"]);
    }
    expect((await app.request("/healthz")).status).toBe(200);
    expect(await (await app.request("/api/session")).json()).toMatchObject({
      keysNeeded: true,
      holder: null,
    });
    expect((await app.request("/api/samples", { headers: bearer(WRONG) })).status).toBe(401);
    expect((await app.request("/api/samples", { headers: { authorization: `Basic ${EDIT}` } })).status).toBe(
      401,
    );
    expect((await app.request(`/api/samples?token=${EDIT}`)).status).toBe(401);
  });

  test("wrong keys shown to the session's own address are counted and held back like any other", async () => {
    const app = await sharedApp();
    const ask = (key: string) => app.request("/api/session", { headers: bearer(key) });
    for (let i = 0; i < FAILURES.most; i += 1) expect((await ask(WRONG)).status).toBe(200);
    const held = await ask(WRONG);
    expect([held.status, await errorOf(held)]).toEqual([429, "too-many-failures"]);
    expect(Number(held.headers.get("retry-after"))).toBeGreaterThan(0);
    expect((await app.request("/api/book", { headers: bearer(WRONG) })).status).toBe(429);
    expect(await (await ask(EDIT)).json()).toMatchObject({ holder: { name: "anna" } });
    expect((await app.request("/api/session")).status).toBe(200);
  });

  test("a view key looks and asks, and changes nothing", async () => {
    const app = await sharedApp();
    expect((await app.request("/api/book/fields", { headers: bearer(VIEW) })).status).toBe(200);
    // A question of the model: answered (here by a model that refuses), not forbidden.
    const asked = await app.request("/api/drydown", { method: "POST", body: "{}", headers: bearer(VIEW) });
    expect(asked.status).toBe(400);
    const before = await (await app.request("/api/book/export", { headers: bearer(VIEW) })).text();
    for (const [method, path] of [
      ["POST", "sites"],
      ["PUT", "sites/new"],
      ["PATCH", "fields/creek"],
      ["DELETE", "fields/creek?revision=1"],
      ["POST", "import?mode=replace"],
      ["POST", "copy-demo"],
    ] as const) {
      const body = method === "DELETE" ? null : JSON.stringify({ id: "new", revision: 1, doc: SITE });
      const response = await app.request(`/api/book/${path}`, { method, body, headers: bearer(VIEW) });
      expect([path, response.status, await errorOf(response)]).toEqual([path, 403, "view-only"]);
    }
    expect((await writeSite(app, bearer(EDIT))).status).toBe(201);
    const stripped = (text: string) => text.replace(/"exportedUtc":"[^"]*"/, "");
    expect(stripped(before)).not.toContain('"new"');
  });
});

describe("a session in a browser", () => {
  test("signing out ends the session on the server too, past its restart, and no other of the same key", async () => {
    const endedFile = join(testFolder(), "ended");
    const app = await sharedApp({ endedFile });
    const cookieOf = async () => (await signIn(app, EDIT)).headers.get("set-cookie")?.split(";")[0] ?? "";
    const [one, other] = [await cookieOf(), await cookieOf()];
    expect((await app.request("/api/session", { method: "DELETE", headers: { cookie: one } })).status).toBe(
      200,
    );
    const statusOf = async (at: App, cookie: string) =>
      (await at.request("/api/book/fields", { headers: { cookie } })).status;
    expect([await statusOf(app, one), await statusOf(app, other)]).toEqual([401, 200]);
    const again = await sharedApp({ endedFile });
    expect([await statusOf(again, one), await statusOf(again, other)]).toEqual([401, 200]);
  });

  test("the key is changed for a cookie that scripts and other sites cannot use", async () => {
    const app = await sharedApp();
    const response = await signIn(app, EDIT);
    expect(await response.json()).toMatchObject({ holder: { name: "anna", role: "edit" } });
    const set = response.headers.get("set-cookie") ?? "";
    expect(set).toMatch(/; HttpOnly/);
    expect(set).toMatch(/; SameSite=Strict/);
    expect(set).not.toContain("Secure");
    expect(set).not.toContain(EDIT);
    const cookie = set.split(";")[0] ?? "";
    expect((await writeSite(app, { cookie })).status).toBe(201);
    const viewer = (await signIn(app, VIEW)).headers.get("set-cookie")?.split(";")[0] ?? "";
    expect((await writeSite(app, { cookie: viewer })).status).toBe(403);
    // A viewer's cookie does not become an editor's by its name.
    const forged = viewer.replace("shed", "anna");
    expect((await app.request("/api/book/fields", { headers: { cookie: forged } })).status).toBe(401);
    // With another key of the same name, or 30 days later, it is over.
    const other = readAccessKeys(`anna:edit:${WRONG}`);
    const changed = await sharedApp({ keys: other.ok ? other.value : [] });
    expect((await writeSite(changed, { cookie })).status).toBe(401);
    nowMs += 31 * 86_400_000;
    expect((await writeSite(app, { cookie })).status).toBe(401);
  });

  test("over https the cookie stays on https; a forwarded https counts only where the proxy is trusted", async () => {
    const headers = { "x-forwarded-proto": "https" };
    expect((await signIn(await sharedApp(), EDIT, headers)).headers.get("set-cookie")).not.toContain(
      "Secure",
    );
    const trusted = await sharedApp({ trustProxy: true });
    expect((await signIn(trusted, EDIT, headers)).headers.get("set-cookie")).toContain("Secure");
  });

  test("a calendar program reads what is due by a token of its own, and nothing else", async () => {
    const app = await sharedApp();
    const { calendarToken } = await (await signIn(app, VIEW)).json();
    expect((await app.request(`/api/book/due.ics?token=${calendarToken}`)).status).toBe(200);
    expect((await app.request(`/api/book/due?token=${calendarToken}`)).status).toBe(401);
    expect((await app.request(`/api/book/export?token=${calendarToken}`)).status).toBe(401);
    const cookie = `swathclock-session=${calendarToken}`;
    expect((await app.request("/api/book/fields", { headers: { cookie } })).status).toBe(401);
  });

  test("a sign-in that cannot be read does not repeat what was sent", async () => {
    const app = await sharedApp();
    for (const body of [`{"key":"${EDIT}"`, `{"kye":"${EDIT}"}`, `"${EDIT}"`]) {
      const response = await app.request("/api/session", { method: "POST", body });
      expect(response.status).toBe(400);
      expect(await response.text()).not.toContain(EDIT);
    }
  });
});

describe("guessing", () => {
  test("after ten wrong keys an address waits with the next; a right one, or a calendar's token, is never held back", async () => {
    const app = await sharedApp();
    const from = (address: string, key: string) => ({ ...bearer(key), "test-address": address });
    const ask = (headers: Record<string, string>) => app.request("/api/samples", { headers });
    for (let n = 0; n < FAILURES.most; n += 1) expect((await ask(from("192.0.2.9", WRONG))).status).toBe(401);
    const held = await ask(from("192.0.2.9", WRONG));
    expect([held.status, Number(held.headers.get("retry-after"))]).toEqual([429, FAILURES.windowMs / 1000]);
    expect((await signIn(app, WRONG, { "test-address": "192.0.2.9" })).status).toBe(429);
    expect((await ask(from("192.0.2.10", WRONG))).status).toBe(401);
    // What the client says of itself does not make it another.
    const said = { ...from("192.0.2.9", WRONG), "x-forwarded-for": "198.51.100.7" };
    expect((await ask(said)).status).toBe(429);
    // Somebody else's slips at this address cost the right ones nothing.
    expect((await ask(from("192.0.2.9", EDIT))).status).toBe(200);
    const own = await app.request("/api/session", { headers: from("192.0.2.9", EDIT) });
    const { calendarToken } = await own.json();
    const calendar = (token: string) =>
      app.request(`/api/book/due.ics?token=${token}`, { headers: { "test-address": "192.0.2.9" } });
    expect((await calendar(calendarToken)).status).toBe(200);
    expect((await calendar(`${calendarToken.slice(0, -2)}AA`)).status).toBe(429);
    expect((await ask(from("192.0.2.9", WRONG))).status).toBe(429);
    nowMs += FAILURES.windowMs;
    expect((await ask(from("192.0.2.9", WRONG))).status).toBe(401);
  });

  test("behind a trusted proxy each client counts for itself: the last address that was added", async () => {
    const app = await sharedApp({ trustProxy: true });
    const ask = (forwarded: string, key: string) =>
      app.request("/api/samples", { headers: { ...bearer(key), "x-forwarded-for": forwarded } });
    for (let n = 0; n < FAILURES.most; n += 1) await ask(`10.0.0.${n}, 198.51.100.7`, WRONG);
    expect((await ask("198.51.100.7", WRONG)).status).toBe(429);
    expect((await ask("198.51.100.8", WRONG)).status).toBe(401);
  });

  test("an IPv6 sender is its network of 64 bits", () => {
    expect(senderOf("2001:db8:1:2:3:4:5:6")).toBe(senderOf("2001:db8:1:2::9"));
    expect(senderOf("2001:db8:1:2::9")).not.toBe(senderOf("2001:db8:1:3::9"));
    expect(senderOf("::ffff:192.0.2.1")).toBe("192.0.2.1");
  });

  test("no key is ever logged", async () => {
    const spies = (["log", "info", "warn", "error"] as const).map((name) =>
      vi.spyOn(console, name).mockImplementation(() => {}),
    );
    const app = await sharedApp();
    for (const key of [EDIT, WRONG]) {
      await app.request("/api/samples", { headers: bearer(key) });
      await signIn(app, key);
      await app.request(`/api/samples?key=${key}`);
    }
    const said = JSON.stringify(spies.flatMap(({ mock }) => mock.calls));
    expect(said).not.toMatch(new RegExp(`${EDIT}|${WRONG}`));
    for (const spy of spies) spy.mockRestore();
  });
});

describe("other sites' pages", () => {
  test.each([
    [{ origin: "https://evil.example" }, 403],
    [{ origin: "null" }, 403],
    [{ origin: "http://localhost:3000" }, 403],
    [{ "sec-fetch-site": "cross-site" }, 403],
    [{ "sec-fetch-site": "same-site" }, 403],
    [{ origin: "http://localhost", "sec-fetch-site": "same-origin" }, 201],
    [{}, 201],
  ])("a write that carries %j gives %i, with a key and without", async (headers, status) => {
    expect((await writeSite(await sharedApp(), { ...bearer(EDIT), ...headers })).status).toBe(status);
    expect((await writeSite(await sharedApp({ keys: [] }), { ...headers })).status).toBe(status);
  });

  test("without keys the server is this machine's under its own names: another name is turned away", async () => {
    const app = await sharedApp({ keys: [] });
    for (const host of ["localhost", "localhost:8787", "127.0.0.1:8787", "[::1]:8787"]) {
      expect([host, (await app.request("/api/samples", { headers: { host } })).status]).toEqual([host, 200]);
    }
    for (const host of [
      "evil.example",
      "localhost.evil.example:8787",
      "127.0.0.1.evil.example",
      "192.0.2.7",
    ]) {
      const response = await app.request("/api/samples", { headers: { host } });
      expect([host, response.status, await errorOf(response)]).toEqual([host, 403, "wrong-host"]);
    }
    const forwarded = { host: "localhost", "x-forwarded-host": "evil.example" };
    expect((await app.request("/api/samples", { headers: forwarded })).status).toBe(200);
    expect(
      (
        await (
          await sharedApp()
        ).request("/api/samples", { headers: { host: "farm.example", ...bearer(EDIT) } })
      ).status,
    ).toBe(200);
  });

  test("no answer invites another site to read it, not even to a preflight", async () => {
    const app = await sharedApp({ keys: [] });
    const headers = { origin: "https://evil.example", "access-control-request-method": "PUT" };
    for (const method of ["GET", "OPTIONS"]) {
      const response = await app.request("/api/book/fields", { method, headers });
      expect([...response.headers.keys()].filter((name) => name.startsWith("access-control-"))).toEqual([]);
    }
  });
});
