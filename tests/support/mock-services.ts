import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { openMeteoBody } from "../server/forecasts/bodies.ts";

/**
 * Loaded before a server that a test starts: the weather services as a mock at the network's edge, with synthetic
 * answers that begin ten days before now. South of the equator none of them answers.
 */

const HOUR_MS = 3_600_000;
const DAYS_PAST = 10;
const LABELS = 24 * (DAYS_PAST + 10);

function answers(request: Request): boolean {
  const query = new URL(request.url).searchParams;
  return Number(query.get("latitude") ?? query.get("lat") ?? 1) > 0;
}

const mock = setupServer(
  http.get("https://open-meteo.invalid/v1/forecast", ({ request }) => {
    if (!answers(request)) return new HttpResponse("away", { status: 404 });
    const today = Math.floor(Date.now() / (24 * HOUR_MS)) * 24 * HOUR_MS;
    const startUtc = new Date(today - DAYS_PAST * 24 * HOUR_MS).toISOString();
    return HttpResponse.json(openMeteoBody({ startUtc, labels: LABELS }));
  }),
  http.get("https://*.invalid/*", () => new HttpResponse("away", { status: 404 })),
);
mock.listen({ onUnhandledRequest: "error" });
