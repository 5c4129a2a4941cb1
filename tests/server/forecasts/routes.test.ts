import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { weatherServices } from "../../../server/forecasts/the-services.ts";
import { NOTES_HEADER } from "../../../server/routes/forecast.ts";
import { readForecastSettings } from "../../../server/settings.ts";
import { theModel } from "../../../server/the-model.ts";
import { fakeApp } from "../../support/app.ts";
import { steppedNetwork } from "../../support/forecast-network.ts";
import { openMeteoBody } from "./bodies.ts";

const mock = setupServer();

beforeAll(() => mock.listen({ onUnhandledRequest: "error" }));
afterEach(() => mock.resetHandlers());
afterAll(() => mock.close());

const URLS = {
  SWATHCLOCK_OPEN_METEO_URL: "https://open-meteo.invalid/prefix/",
  SWATHCLOCK_OPEN_METEO_ENSEMBLE_URL: "https://ensemble.invalid",
  SWATHCLOCK_OPEN_METEO_ARCHIVE_URL: "https://archive.invalid",
  SWATHCLOCK_MET_NORWAY_URL: "https://met.invalid",
  SWATHCLOCK_NWS_URL: "https://nws.invalid",
  SWATHCLOCK_BRIGHT_SKY_URL: "https://brightsky.invalid",
  SWATHCLOCK_USER_AGENT: "farm.example weather@farm.example",
};

function api() {
  const settings = readForecastSettings(URLS);
  if (!settings.ok) throw new Error("settings");
  return fakeApp({
    model: theModel,
    weather: weatherServices(settings.value, steppedNetwork("2026-07-01T06:10:00Z")),
  });
}

const good = http.get("https://open-meteo.invalid/prefix/v1/forecast", () =>
  HttpResponse.json(openMeteoBody({ startUtc: "2026-06-21T00:00:00Z", labels: 480 })),
);

describe("GET /api/forecast", () => {
  test("gives a series that the windows take as it is", async () => {
    mock.use(good);
    const app = api();
    const response = await app.request("/api/forecast?latitude=44.3&longitude=-98.2");
    expect(response.status).toBe(200);
    expect(JSON.parse(response.headers.get(NOTES_HEADER) ?? "")).toEqual([]);
    const weather = await response.json();
    expect(weather).toMatchObject({
      origin: "forecast",
      provider: "open-meteo",
      site: { timeZone: "America/Chicago" },
    });
    const windows = await app.request("/api/windows", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({
        weather,
        nowUtc: "2026-07-01T06:00:00Z",
        field: { areaHa: 6 },
        swath: {
          crop: "alfalfa",
          dryMatterTHa: 3.2,
          initialMoistureWb: 0.78,
          conditioning: "roll",
          coveredFraction: 0.7,
          stubbleCm: 8,
          soil: "moist",
          dryingAgent: false,
          freeWaterMm: null,
        },
        treatments: [{ id: "wide", conditioning: "roll", coveredFraction: 0.7, stubbleCm: 8 }],
        routes: [{ route: "dry-hay" }],
      }),
    });
    expect(windows.status).toBe(200);
    expect((await windows.json()).options.length).toBeGreaterThan(5);
  });

  test("a correction of zone and elevation goes into the site", async () => {
    mock.use(good);
    const response = await api().request(
      "/api/forecast?latitude=44.3&longitude=-98.2&timeZone=America/Denver&elevationM=500",
    );
    expect(await response.json()).toMatchObject({ site: { timeZone: "America/Denver", elevationM: 500 } });
  });

  test.each([
    ["longitude=1", "latitude", /latitude/],
    ["latitude=444&longitude=1", "latitude", /got 444, must be at least -90 and at most 90/],
    ["latitude=x&longitude=1", "latitude", /latitude/],
    ["latitude=1&longitude=1&provider=crystal-ball", "provider", /open-meteo/],
    ["latitude=1&longitude=1&timeZone=Mars/Olympus", "timeZone", /got "Mars\/Olympus", must be an IANA zone/],
    ["latitude=1&longitude=1&ensemble=perhaps", "ensemble", /true/],
    ["latitude=1&longitude=1&elevation=5", "elevation", /elevation/],
  ])("%s is refused by the field's name", async (query, path, message) => {
    const response = await api().request(`/api/forecast?${query}`);
    expect(response.status).toBe(400);
    const { error, issues } = await response.json();
    expect(error).toBe("invalid-request");
    expect(issues[0].path).toBe(path);
    expect(issues[0].message).toMatch(message);
  });

  test("when nobody answers: 502, why, and a way on", async () => {
    for (const host of ["open-meteo.invalid/prefix", "met.invalid", "nws.invalid", "brightsky.invalid"])
      mock.use(http.get(`https://${host}/*`, () => new HttpResponse("away", { status: 404 })));
    const response = await api().request("/api/forecast?latitude=44.3&longitude=-98.2");
    expect(response.status).toBe(502);
    const body = await response.json();
    expect(body.error).toBe("weather-unavailable");
    expect(body.message).toMatch(/own weather.*sample/);
    expect(body.issues.map(({ path }: { path: string }) => path)).toEqual([
      "provider.open-meteo",
      "provider.nws",
      "provider.met-norway",
      "provider.bright-sky",
    ]);
  });

  test("without any service set up, and other verbs", async () => {
    const response = await fakeApp().request("/api/forecast?latitude=44.3&longitude=-98.2");
    expect(response.status).toBe(502);
    expect((await response.json()).message).toMatch(/No weather service is set up/);
    expect((await api().request("/api/forecast", { method: "POST" })).status).toBe(405);
  });
});

describe("GET /api/archive", () => {
  test("gives the local days asked for", async () => {
    mock.use(
      http.get("https://archive.invalid/v1/archive", () =>
        HttpResponse.json(openMeteoBody({ startUtc: "2024-05-01T00:00:00Z", labels: 72 })),
      ),
    );
    const response = await api().request(
      "/api/archive?latitude=44.3&longitude=-98.2&from=2024-05-01&to=2024-05-02",
    );
    const { hours, origin } = await response.json();
    expect(origin).toBe("archive");
    expect([hours.startUtc[0], hours.startUtc.at(-1)]).toEqual([
      "2024-05-01T05:00:00Z",
      "2024-05-03T04:00:00Z",
    ]);
  });

  test.each([
    ["from=2024-05-01", "to"],
    ["from=2024-02-30&to=2024-03-01", "from"],
    ["from=2024-05-02&to=2024-05-01", "to"],
    ["from=1900-01-01&to=1900-01-02", "from"],
    ["from=2026-06-30&to=2026-07-09", "to"],
    ["from=2020-01-01&to=2024-01-01", "to"],
  ])("%s is refused at %s", async (query, path) => {
    const response = await api().request(`/api/archive?latitude=44.3&longitude=-98.2&${query}`);
    expect(response.status).toBe(400);
    expect((await response.json()).issues[0].path).toBe(path);
  });
});

test("both are in the document of the API", async () => {
  const document = await (await api().request("/openapi.json")).json();
  expect(Object.keys(document.paths)).toEqual(expect.arrayContaining(["/api/forecast", "/api/archive"]));
});

describe("settings", () => {
  test("with a key and no address of one's own, the hosts for customers", () => {
    const settings = readForecastSettings({ SWATHCLOCK_OPEN_METEO_KEY: "abc" });
    expect(settings).toMatchObject({
      ok: true,
      value: {
        openMeteoUrl: "https://customer-api.open-meteo.com",
        openMeteoArchiveUrl: "https://customer-archive-api.open-meteo.com",
        metNorwayUrl: "https://api.met.no",
      },
    });
  });

  test.each([
    ["SWATHCLOCK_NWS_URL", "ftp://x", /must be an http or https address/],
    ["SWATHCLOCK_MET_NORWAY_URL", "met", /got "met"/],
    ["SWATHCLOCK_USER_AGENT", "straße", /printable ASCII/],
    ["SWATHCLOCK_OPEN_METEO_KEY", "a b", /without spaces/],
    ["SWATHCLOCK_OPEN_METEO_ENSEMBLE_MODELS", "a,,b", /names of models/],
  ])("%s=%s is refused by name", (name, value, message) => {
    const settings = readForecastSettings({ [name]: value });
    if (settings.ok) throw new Error("taken");
    expect(settings.issues[0]?.path).toBe(name);
    expect(settings.issues[0]?.message).toMatch(message);
  });
});
