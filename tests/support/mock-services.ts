import { delay, HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { ensembleBody, openMeteoBody } from "../server/forecasts/bodies.ts";

/**
 * Loaded before a server that a test starts: the weather services as a mock at the network's edge, with synthetic
 * answers that begin ten days before now. South of the equator none of them answers; from 50° north on the ensemble
 * does not, and from 47° on it takes its time.
 */

const HOUR_MS = 3_600_000;
const DAYS_PAST = 10;
const LABELS = 24 * (DAYS_PAST + 10);

/** Days before today of which an ensemble tells, and its trajectories: enough that a board takes each once. */
const ENSEMBLE_DAYS_PAST = 2;
const MEMBERS = 21;
/** Less than the server waits for it, longer than the page does. */
const SLOW_MS = 6000;

function latitudeOf(request: Request): number {
  const query = new URL(request.url).searchParams;
  return Number(query.get("latitude") ?? query.get("lat") ?? 1);
}

function daysAgo(days: number): string {
  const today = Math.floor(Date.now() / (24 * HOUR_MS)) * 24 * HOUR_MS;
  return new Date(today - days * 24 * HOUR_MS).toISOString();
}

const mock = setupServer(
  http.get("https://open-meteo.invalid/v1/forecast", ({ request }) => {
    if (latitudeOf(request) <= 0) return new HttpResponse("away", { status: 404 });
    return HttpResponse.json(openMeteoBody({ startUtc: daysAgo(DAYS_PAST), labels: LABELS }));
  }),
  http.get("https://ensemble.invalid/v1/ensemble", async ({ request }) => {
    const latitude = latitudeOf(request);
    if (latitude <= 0 || latitude >= 50) return new HttpResponse("away", { status: 404 });
    if (latitude >= 47) await delay(SLOW_MS);
    const labels = LABELS - 24 * (DAYS_PAST - ENSEMBLE_DAYS_PAST);
    return HttpResponse.json(
      ensembleBody({ startUtc: daysAgo(ENSEMBLE_DAYS_PAST), labels, members: MEMBERS }),
    );
  }),
  http.get("https://*.invalid/*", () => new HttpResponse("away", { status: 404 })),
);
mock.listen({ onUnhandledRequest: "error" });
