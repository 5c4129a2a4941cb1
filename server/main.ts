import { existsSync } from "node:fs";
import { join } from "node:path";
import { serve } from "@hono/node-server";
import { getConnInfo } from "@hono/node-server/conninfo";
import { serveStatic } from "@hono/node-server/serve-static";
import type { MiddlewareHandler } from "hono";
import { createApp } from "./app.ts";
import { bookWhenAsked } from "./book/open-book.ts";
import { readBookSettings } from "./book/settings.ts";
import { crewPool, withCrewIn } from "./crew/crew-pool.ts";
import { weatherServices } from "./forecasts/the-services.ts";
import { ROOT } from "./place.ts";
import { readSamples } from "./samples.ts";
import { readForecastSettings, readSettings } from "./settings.ts";
import { theModel } from "./the-model.ts";
import { boardPool, withLargeBoardsIn } from "./workers/large-boards.ts";

const dist = join(ROOT, "web", "dist");

function stop(message: string): never {
  console.error(`swathclock: ${message}`);
  process.exit(1);
}

const settings = readSettings(process.env);
if (!settings.ok) stop(settings.issues.map((issue) => issue.message).join("\n"));
const { host, port, keys, trustProxy } = settings.value;
const forecastSettings = readForecastSettings(process.env);
if (!forecastSettings.ok) stop(forecastSettings.issues.map((issue) => issue.message).join("\n"));
const bookSettings = readBookSettings(process.env);
if (!bookSettings.ok) stop(bookSettings.issues.map((issue) => issue.message).join("\n"));
const built = existsSync(join(dist, "index.html"));
const NOT_BUILT = "The page is not built; only the API is served. `npm start` builds it.";
if (!built) console.error(`swathclock: ${NOT_BUILT}`);

const sayNotBuilt: MiddlewareHandler = async (c, next) => {
  if (c.req.path === "/") return c.text(`${NOT_BUILT}\n`, 503);
  return next();
};

const startedMs = Date.now();
const theBook = bookWhenAsked(bookSettings.value, Date.now);
// Opened at once, so that the first start makes it; the forecast is served even where it cannot be opened.
theBook.open().then(
  ({ place, readOnly, backup }) => {
    console.log(`The book is at ${place}${readOnly ? " (it can only be read)" : ""}`);
    if (backup !== null) console.log(`Before its schema was brought up to date it was kept as ${backup}`);
  },
  ({ message, cause }: Error) => {
    const why = cause instanceof Error ? ` (${cause.message})` : "";
    const which = bookSettings.value.databaseUrl === null ? bookSettings.value.file : "DATABASE_URL";
    console.error(`swathclock: ${which}: ${message}${why}`);
  },
);
const app = createApp({
  model: withCrewIn(crewPool(), withLargeBoardsIn(boardPool(), theModel)),
  weather: weatherServices(forecastSettings.value),
  samples: await readSamples(join(ROOT, "weather-samples")),
  access: { keys, trustProxy, endedFile: `${bookSettings.value.file}.ended-sessions` },
  clientAddress: (c) => getConnInfo(c).remote.address ?? "",
  book: async () => (await theBook.open()).book,
  uptimeS: () => (Date.now() - startedMs) / 1000,
  page: built ? serveStatic({ root: dist }) : sayNotBuilt,
});

const server = serve({ fetch: app.fetch, hostname: host, port }, (address) => {
  const shown = host.includes(":") ? `[${host}]` : host;
  console.log(`Swathclock is at http://${shown}:${address.port}/  (Ctrl+C stops it)`);
  if (keys.length > 0) {
    const holders = keys.map(({ name, role }) => `${name} (${role})`).join(", ");
    console.log(`Every /api request needs a key or a session. There are keys of: ${holders}`);
  }
});

server.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EADDRINUSE") {
    stop(`port ${port} on ${host} is in use; stop what uses it, or choose another: PORT=8788 npm start`);
  }
  if (error.code === "EACCES")
    stop(`port ${port} on ${host} needs rights this user lacks; choose one above 1023`);
  stop(`cannot listen on ${host}:${port}: ${error.message}`);
});

let stopping = false;
function close() {
  if (stopping) return;
  stopping = true;
  const end = () => theBook.close().finally(() => process.exit(0));
  server.close(end);
  // Connections kept open by a browser would hold the process; answers under way get a moment.
  if ("closeIdleConnections" in server) server.closeIdleConnections();
  setTimeout(end, 2000).unref();
}
process.on("SIGINT", close);
process.on("SIGTERM", close);
