import { createRoute, OpenAPIHono } from "@hono/zod-openapi";
import type { Context } from "hono";
import type { Note } from "../forecasts/provider.ts";
import { readArchiveQuery, readForecastQuery } from "../forecasts/read-query.ts";
import type { Tried, WeatherAnswer, WeatherService } from "../forecasts/service.ts";
import { invalidRequest, sendProblem } from "../problem.ts";
import { badRequest, errorSchema, jsonOf } from "../schemas/error.ts";
import { archiveQuery, forecastQuery } from "../schemas/forecast.ts";
import { drydownWeather } from "../schemas/weather.ts";

/** What is to be told beside a series: a JSON list of `{ "code", "text" }`, in ASCII. */
export const NOTES_HEADER = "Swathclock-Notes";

const unavailable = jsonOf(errorSchema, "No weather service answered; why, service by service, and a way on");

const NOTES = `Beside the series, the header ${NOTES_HEADER} carries a JSON list of { code, text }: stale (the last good answer, with its age), fallback, merged-rain, coarse-rain, cloud-estimate, ensemble, ensemble-missing, elevation-assumed.`;

const WAY_ON =
  "Use a file of your own weather (POST /api/weather/check), an invented sample (GET /api/samples), or ask again in a few minutes.";

function inAscii(notes: readonly Note[]): string {
  return JSON.stringify(notes).replace(
    /[^\x20-\x7e]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

function problemOf(tried: readonly Tried[]) {
  const issues = tried.map(({ provider, failure }) => ({
    path: `provider.${provider}`,
    code: failure.code,
    message: `${provider}: ${failure.message}`,
  }));
  const what = tried.length === 0 ? "No weather service is set up" : "No weather service answered";
  const names = tried.length === 0 ? "" : ` (${tried.map(({ provider }) => provider).join(", ")})`;
  return { error: "weather-unavailable", message: `${what}${names}. ${WAY_ON}`, issues };
}

function send(c: Context, answer: WeatherAnswer) {
  if (!answer.ok) return sendProblem(c, 502, problemOf(answer.tried));
  c.header(NOTES_HEADER, inAscii(answer.notes));
  return c.json(answer.series);
}

export function forecastRoutes(service: WeatherService) {
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "get",
      path: "/api/forecast",
      summary: "The forecast of a place from an open weather service, with the past ten days",
      description: NOTES,
      request: { query: forecastQuery },
      responses: { 200: jsonOf(drydownWeather, "The series"), 400: badRequest, 502: unavailable },
    }),
  );
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "get",
      path: "/api/archive",
      summary: "Past weather of a place by local days, from a reanalysis",
      description: NOTES,
      request: { query: archiveQuery },
      responses: { 200: jsonOf(drydownWeather, "The series"), 400: badRequest, 502: unavailable },
    }),
  );
  app.get("/api/forecast", async (c) => {
    const asked = readForecastQuery(c.req.query());
    if (!asked.ok) return sendProblem(c, 400, invalidRequest(asked.issues));
    return send(c, await service.forecast(asked.value));
  });
  app.get("/api/archive", async (c) => {
    const asked = readArchiveQuery(c.req.query(), service.nowMs());
    if (!asked.ok) return sendProblem(c, 400, invalidRequest(asked.issues));
    return send(c, await service.archive(asked.value));
  });
  return app;
}
