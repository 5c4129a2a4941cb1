import { OpenAPIHono } from "@hono/zod-openapi";
import type { Context, MiddlewareHandler } from "hono";
import { compress } from "hono/compress";
import { HTTPException } from "hono/http-exception";
import { secureHeaders } from "hono/secure-headers";
import { type AccessSettings, accessOf } from "./access.ts";
import { demoBook } from "./book/demo-book.ts";
import { BookFailure } from "./book/failure.ts";
import { sequenceInBook } from "./book/sequence-in-book.ts";
import type { WeatherService } from "./forecasts/service.ts";
import { noWeatherServices } from "./forecasts/the-services.ts";
import { describedWithAccess } from "./openapi-access.ts";
import { plainProblem, sendProblem } from "./problem.ts";
import { BOOK_METHODS, bookRoutes } from "./routes/book.ts";
import type { BookSource } from "./routes/book-kind.ts";
import { crewPlanRoutes } from "./routes/crew-plan.ts";
import { drydownRoutes } from "./routes/drydown.ts";
import { feedCheckRoutes } from "./routes/feed-check.ts";
import { forecastRoutes } from "./routes/forecast.ts";
import { healthRoutes } from "./routes/health.ts";
import { modelRoutes } from "./routes/model.ts";
import { recordRoutes } from "./routes/record.ts";
import { sampleRoutes } from "./routes/samples.ts";
import { SESSION_METHODS, sessionRoutes } from "./routes/session.ts";
import { type CheckUpload, weatherCheckRoutes } from "./routes/weather-check.ts";
import { windowsRoutes } from "./routes/windows.ts";
import type { CliModel } from "./run-cli.ts";
import type { Sample } from "./samples.ts";

export interface AppParts {
  readonly samples: readonly Sample[];
  /** Who may ask; absent = this machine alone, without a key. */
  readonly access?: AccessSettings;
  /** The address at the other end of a connection; absent = all are one. */
  readonly clientAddress?: (c: Context) => string;
  readonly uptimeS?: () => number;
  /** Serves the built page; absent where only the API is wanted. */
  readonly page?: MiddlewareHandler;
  /** The model's functions; tests put others in their place. */
  readonly model: AppModel;
  /** The weather services; absent = none is asked. */
  readonly weather?: WeatherService;
  /** The user's own book, opened when it is first asked for; absent = there is none. */
  readonly book?: BookSource["own"];
  readonly nowMs?: () => number;
}

/** All that the API takes from the model. */
export interface AppModel extends CliModel {
  readonly version: string;
  readonly checkUpload: CheckUpload;
  /** The CSV template that people start from. */
  readonly template: string;
}

/**
 * Every address with the methods it takes (HEAD goes with GET); {id} stands for one part. Whatever changes something
 * lies under /api/book: all else that is posted is a question.
 */
const METHODS: Readonly<Record<string, "GET" | "POST" | readonly string[]>> = {
  ...BOOK_METHODS,
  ...SESSION_METHODS,
  "/api/drydown": "POST",
  "/api/windows": "POST",
  "/api/feed-check": "POST",
  "/api/record": "POST",
  "/api/crew-plan": "POST",
  "/api/crew-plan/calendar": "POST",
  "/api/crew-plan/csv": "POST",
  "/api/weather/check": "POST",
  "/api/forecast": "GET",
  "/api/archive": "GET",
  "/api/samples": "GET",
  "/api/model": "GET",
  "/api/template.csv": "GET",
  "/openapi.json": "GET",
  "/healthz": "GET",
};

/** Only what this server itself serves may run, load or frame. */
const securityHeaders = secureHeaders({
  strictTransportSecurity: false,
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    imgSrc: ["'self'", "data:", "blob:"],
    workerSrc: ["'self'"],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    frameAncestors: ["'none'"],
    formAction: ["'self'"],
  },
  // The page asks for the farm's place, and for nothing else of the device.
  permissionsPolicy: { geolocation: ["self"], camera: [], microphone: [], payment: [], usb: [] },
});

/**
 * Files with a hash in their name never change; all else is asked for again each time, above all the page and its
 * service worker, by which a new version comes in.
 */
const cacheHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  if (c.res.headers.has("Cache-Control")) return;
  const hashed = c.req.path.startsWith("/assets/") && c.res.status === 200;
  c.header("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
};

/** The engine of the crew plan's proof. */
const SOLVER_WORKER = /^\/assets\/solver-worker-[\w-]+\.js$/;

/** That engine is WebAssembly: the script of its worker alone may compile such, no page and no other script may. */
const solverHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  if (!SOLVER_WORKER.test(c.req.path)) return;
  c.header("Content-Security-Policy", "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'");
};

function failed(error: Error, c: Context) {
  if (error instanceof HTTPException) {
    if (error.res !== undefined) return error.getResponse();
    return sendProblem(c, error.status, plainProblem("refused", error.message));
  }
  if (error instanceof BookFailure) return sendProblem(c, error.status, error.body);
  console.error(error);
  const message = "the answer could not be computed; the server's log says why";
  return sendProblem(c, 500, plainProblem("internal", message));
}

/** Addresses with an {id}, as patterns. */
const PATTERNS = Object.entries(METHODS)
  .filter(([path]) => path.includes("{id}"))
  .map(([path, methods]) => ({ pattern: new RegExp(`^${path.replace("{id}", "[^/]+")}$`), methods }));

/** What the address takes; null where there is none. */
function methodsAt(path: string): string | null {
  const allowed = METHODS[path] ?? PATTERNS.find(({ pattern }) => pattern.test(path))?.methods;
  if (allowed === undefined) return null;
  const methods = typeof allowed === "string" ? [allowed] : allowed;
  return methods.flatMap((method) => (method === "GET" ? ["GET", "HEAD"] : [method])).join(", ");
}

function notFound(c: Context) {
  const { path } = c.req;
  const methods = methodsAt(path);
  if (methods !== null) {
    c.header("Allow", methods);
    return sendProblem(
      c,
      405,
      plainProblem("method-not-allowed", `${path} takes ${methods}, got ${c.req.method}`),
    );
  }
  if (path.startsWith("/api/")) {
    const known = Object.keys(METHODS).join(", ");
    return sendProblem(c, 404, plainProblem("not-found", `no such address: ${path}; known: ${known}`));
  }
  return c.text(`Nothing is at ${path}. The page is at /`, 404);
}

async function noBook(): Promise<never> {
  throw new BookFailure(503, "book-unavailable", "no book is set up here");
}

/** The whole server but for listening: middleware, routes, errors. */
export function createApp(parts: AppParts) {
  const { model } = parts;
  const app = new OpenAPIHono();
  app.use(solverHeaders, securityHeaders, cacheHeaders, compress());
  const nowMs = parts.nowMs ?? Date.now;
  const { keys = [], trustProxy = false, endedFile } = parts.access ?? {};
  const access = accessOf({
    keys,
    trustProxy,
    endedFile,
    nowMs,
    clientAddress: parts.clientAddress ?? (() => ""),
  });
  app.use(access.sameSite);
  app.use("/api/*", access.needsKey);
  app.route("/", sessionRoutes(access));
  app.route("/", drydownRoutes(model.drydown));
  app.route("/", windowsRoutes(model.findWindows));
  app.route("/", recordRoutes());
  app.route("/", feedCheckRoutes(model.feedCheck));
  app.route("/", crewPlanRoutes(model.crewPlan, nowMs, sequenceInBook(parts.book)));
  app.route("/", weatherCheckRoutes(model.checkUpload, model.template));
  app.route("/", forecastRoutes(parts.weather ?? noWeatherServices()));
  app.route("/", sampleRoutes(parts.samples));
  app.route("/", bookRoutes({ own: parts.book ?? noBook, demo: demoBook(nowMs), nowMs }));
  app.route("/", modelRoutes(model.version));
  app.route("/", healthRoutes(model.version, parts.uptimeS ?? (() => 0)));
  const about = {
    openapi: "3.1.0",
    info: {
      title: "Swathclock",
      version: model.version,
      description: "Hourly weather in, harvest windows out.",
    },
  };
  app.get("/openapi.json", (c) => c.json(describedWithAccess(app, about, keys.length > 0)));
  if (parts.page) app.get("/*", parts.page);
  app.notFound(notFound);
  app.onError(failed);
  return app;
}
