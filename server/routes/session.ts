import { randomBytes } from "node:crypto";
import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { deleteCookie, setCookie } from "hono/cookie";
import { type Access, COOKIE } from "../access.ts";
import { type Holder, makeToken, ROLES } from "../access-keys.ts";
import { check } from "../check.ts";
import { limitBody } from "../limit-body.ts";
import { invalidRequest, sendProblem } from "../problem.ts";
import { readJson } from "../read-json.ts";
import { readText } from "../read-text.ts";
import { badRequest, errorSchema, jsonOf } from "../schemas/error.ts";
import { record } from "../schemas/parts.ts";

/** A session lasts this long after its last beginning. */
const SESSION_DAYS = 30;
/** A calendar's address is written into a calendar program once. */
const CALENDAR_DAYS = 730;
const DAY_S = 86_400;

const signIn = record({ key: z.string().max(500) }).openapi("SignIn");

const session = z
  .strictObject({
    keysNeeded: z.boolean(),
    holder: z.strictObject({ name: z.string(), role: z.enum(ROLES) }).nullable(),
    /** `/api/book/due.ics?token=...` for a calendar program, which can send no header. */
    calendarToken: z.string().nullable(),
  })
  .openapi("Session");

export const SESSION_METHODS = { "/api/session": ["GET", "POST", "DELETE"] } as const;

export function sessionRoutes(access: Access) {
  const app = new OpenAPIHono();
  const { keys, nowMs } = access;
  const nowS = () => Math.floor(nowMs() / 1000);
  const answer = (c: Context, holder: Holder | null) => {
    const key = keys.find(({ name }) => name === holder?.name);
    c.header("Cache-Control", "no-store");
    return c.json({
      keysNeeded: keys.length > 0,
      holder,
      calendarToken: key === undefined ? null : makeToken(key, "calendar", nowS() + CALENDAR_DAYS * DAY_S),
    });
  };
  const describe = (method: "get" | "post" | "delete", summary: string) =>
    app.openAPIRegistry.registerPath(
      createRoute({
        method,
        path: "/api/session",
        summary,
        request: method === "post" ? { body: { content: { "application/json": { schema: signIn } } } } : {},
        responses: {
          200: jsonOf(session, "Who asks, and whether a key is needed at all"),
          400: badRequest,
          401: jsonOf(errorSchema, "The key is not the right one"),
          429: jsonOf(errorSchema, "Too many wrong keys: wait"),
        },
      }),
    );
  describe("get", "Whether a key is needed, and whose came with the request");
  describe("post", "A browser signs in: the key is changed for a cookie that its scripts cannot read");
  describe("delete", "The browser signs out");
  app.get("/api/session", (c) => {
    const holder = access.holderNow(c);
    return holder instanceof Response ? holder : answer(c, holder);
  });
  app.post("/api/session", limitBody(10_000), async (c) => {
    const text = readText(await c.req.arrayBuffer(), "");
    const json = text.ok ? readJson(text.value) : text;
    const body = json.ok ? check(signIn, json.value) : json;
    // What was sent is not said again: it may be a key.
    if (!body.ok) {
      const issues = body.issues.map(({ path, code }) => ({
        path,
        code,
        message: 'must read {"key": "..."}',
      }));
      return sendProblem(c, 400, invalidRequest(issues));
    }
    if (keys.length === 0) return answer(c, null);
    const key = access.signIn(c, body.value.key);
    if (key instanceof Response) return key;
    const untilS = nowS() + SESSION_DAYS * DAY_S;
    setCookie(c, COOKIE, makeToken(key, "session", untilS, randomBytes(9).toString("hex")), {
      httpOnly: true,
      sameSite: "Strict",
      secure: access.isHttps(c),
      path: "/",
      maxAge: SESSION_DAYS * DAY_S,
    });
    return answer(c, { name: key.name, role: key.role });
  });
  app.delete("/api/session", (c) => {
    access.signOut(c);
    deleteCookie(c, COOKIE, { path: "/" });
    return answer(c, null);
  });
  return app;
}
