import fc from "fast-check";
import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { checkSeries } from "../../../model/weather/index.ts";
import { providerOrder, timeZoneOf } from "../../../server/forecasts/place.ts";
import { ANSWER_LIMIT_MS, type AskedForecast } from "../../../server/forecasts/service.ts";
import { type ForecastSettings, weatherServices } from "../../../server/forecasts/the-services.ts";
import { type SteppedNetwork, steppedNetwork } from "../../support/forecast-network.ts";
import { brightBody, metFair, NWS_POINTS, nwsBody, openMeteoBody } from "./bodies.ts";

const NOW = "2026-07-01T06:10:00Z";
const SETTINGS: ForecastSettings = {
  openMeteoUrl: "https://open-meteo.invalid",
  openMeteoEnsembleUrl: "https://ensemble.invalid",
  openMeteoArchiveUrl: "https://archive.invalid",
  openMeteoKey: null,
  ensembleModels: ["ecmwf_ifs025_ensemble"],
  metNorwayUrl: "https://met.invalid",
  nwsUrl: "https://nws.invalid",
  brightSkyUrl: "https://brightsky.invalid",
  userAgent: "tests",
};
const DAKOTA: AskedForecast = {
  latitude: 44.3,
  longitude: -98.2,
  timeZone: null,
  elevationM: null,
  provider: null,
  ensemble: false,
};
const mock = setupServer();

beforeAll(() => mock.listen({ onUnhandledRequest: "error" }));
afterEach(() => mock.resetHandlers());
afterAll(() => mock.close());

/** The good answers of every service, for the moment of these tests. */
const GOOD = {
  openMeteo: () => HttpResponse.json(openMeteoBody({ startUtc: "2026-06-21T00:00:00Z", labels: 480 })),
  met: () => HttpResponse.json(metFair("2026-07-01T06:00:00Z")),
  points: () => HttpResponse.json(NWS_POINTS),
  grid: () => HttpResponse.json(nwsBody("2026-07-01T06:00:00Z", 7)),
  bright: () => HttpResponse.json(brightBody("2026-06-21T00:00:00Z", 480)),
};

function serve(answers: Partial<Record<keyof typeof GOOD, () => Response | Promise<Response>>> = {}): void {
  const all = { ...GOOD, ...answers };
  mock.use(
    http.get("https://open-meteo.invalid/v1/forecast", () => all.openMeteo()),
    http.get("https://met.invalid/weatherapi/locationforecast/2.0/complete", () => all.met()),
    http.get("https://nws.invalid/points/:point", () => all.points()),
    http.get("https://nws.invalid/gridpoints/ABC/10,20", () => all.grid()),
    http.get("https://brightsky.invalid/weather", () => all.bright()),
  );
}

function chain(network: SteppedNetwork = steppedNetwork(NOW)) {
  return { network, service: weatherServices(SETTINGS, network) };
}

const down = () => new HttpResponse("down", { status: 500 });

describe("the order goes by the place, and a pick comes first", () => {
  test.each([
    [44.3, -98.2, null, ["open-meteo", "nws", "met-norway", "bright-sky"]],
    [51, 10, null, ["open-meteo", "bright-sky", "met-norway"]],
    [60, 25, null, ["open-meteo", "met-norway", "bright-sky"]],
    [51, 10, "met-norway", ["met-norway", "open-meteo", "bright-sky"]],
    [44.3, -98.2, "nws", ["nws", "open-meteo", "met-norway", "bright-sky"]],
  ] as const)("%d, %d, %s", (latitude, longitude, picked, order) => {
    expect(providerOrder(latitude, longitude, picked)).toEqual(order);
  });

  test("the zone is found from the place, at sea too", () => {
    expect(timeZoneOf(44.3, -98.2)).toBe("America/Chicago");
    expect(timeZoneOf(48.2, 16.4)).toBe("Europe/Vienna");
    expect(timeZoneOf(26.8, 80.9)).toBe("Asia/Kolkata");
    expect(timeZoneOf(0, -140)).toMatch(/^Etc\/GMT|Pacific/);
  });
});

describe("one record leaves, whichever service gave it", () => {
  test.each(["open-meteo", "met-norway", "nws", "bright-sky"] as const)("%s", async (provider) => {
    serve();
    const answer = await chain().service.forecast({ ...DAKOTA, provider });
    if (!answer.ok) throw new Error("no answer");
    const { series } = answer;
    expect(series).toMatchObject({
      provider,
      origin: "forecast",
      windHeightM: 10,
      nativeStepHours: 1,
      site: { latitude: 44.3, longitude: -98.2, timeZone: "America/Chicago" },
    });
    expect(checkSeries(series).issues).toEqual([]);
    expect(series.attribution?.length).toBeGreaterThan(0);
    expect(series.fetchedUtc).toMatch(/^2026-07-01T06:1/);
    const { hours } = series;
    const sun = hours.solarWm2 ?? [];
    expect(Math.max(...sun.map((value) => value ?? 0))).toBeGreaterThan(100);
    const estimated = provider === "met-norway" || provider === "nws";
    expect(series.marks?.solarWm2?.includes("cloud-estimate") ?? false).toBe(estimated);
    expect(answer.notes.some(({ code }) => code === "cloud-estimate")).toBe(estimated);
  });
});

describe("when a service fails, the next one answers", () => {
  test("and it is said why", async () => {
    serve({ openMeteo: down });
    const answer = await chain().service.forecast(DAKOTA);
    if (!answer.ok) throw new Error("no answer");
    expect(answer.series.provider).toBe("nws");
    expect(answer.notes[0]).toEqual({
      code: "fallback",
      text: "From US National Weather Service, because Open-Meteo is out of order at the moment.",
    });
  });

  test("a limit by the minute is not waited out", async () => {
    serve({
      openMeteo: () =>
        HttpResponse.json(
          { error: true, reason: "Minutely API request limit exceeded. Please try again in one minute." },
          { status: 429 },
        ),
    });
    const { network, service } = chain();
    const before = network.nowMs();
    const answer = await service.forecast(DAKOTA);
    expect(answer).toMatchObject({ ok: true, series: { provider: "nws" } });
    expect(network.nowMs() - before).toBeLessThan(15_000);
  });

  test("a grid older than a day is refused for the next", async () => {
    serve({ openMeteo: down, grid: () => HttpResponse.json(nwsBody("2026-06-30T05:00:00Z", 7)) });
    const answer = await chain().service.forecast(DAKOTA);
    expect(answer).toMatchObject({ ok: true, series: { provider: "met-norway" } });
    if (answer.ok)
      expect(answer.notes[0]?.text).toMatch(
        /US National Weather Service has only a forecast that is too old/,
      );
  });

  test("one that ends within a day is of no use", async () => {
    serve({
      openMeteo: () => HttpResponse.json(openMeteoBody({ startUtc: "2026-06-30T00:00:00Z", labels: 40 })),
    });
    expect(await chain().service.forecast(DAKOTA)).toMatchObject({ ok: true, series: { provider: "nws" } });
  });

  test("one that never answers does not use up the others' time", async () => {
    const { network, service } = chain();
    serve({ openMeteo: network.never });
    const before = network.nowMs();
    expect(await service.forecast(DAKOTA)).toMatchObject({ ok: true, series: { provider: "nws" } });
    expect(network.nowMs() - before).toBeLessThan(ANSWER_LIMIT_MS);
  });
});

describe("when all fail", () => {
  test("the last good answer comes with its age, under the zone now asked for", async () => {
    let works = true;
    const failing = (good: () => Response) => () => (works ? good() : down());
    serve({
      openMeteo: failing(GOOD.openMeteo),
      met: failing(GOOD.met),
      points: failing(GOOD.points),
      bright: failing(GOOD.bright),
    });
    const { network, service } = chain();
    await service.forecast(DAKOTA);
    works = false;
    network.skip(5 * 3_600_000);
    const answer = await service.forecast({ ...DAKOTA, timeZone: "America/Denver" });
    if (!answer.ok) throw new Error("no answer");
    expect(answer.series.site.timeZone).toBe("America/Denver");
    expect(answer.notes[0]).toMatchObject({ code: "stale" });
    expect(answer.notes[0]?.text).toMatch(/last good answer: 5 h old, fetched 2026-07-01T06:1/);
    // Once it is all past, it is no forecast any more.
    network.skip(30 * 86_400_000);
    expect(await service.forecast(DAKOTA)).toMatchObject({ ok: false });
  });

  test("without one, every service's reason", async () => {
    serve({ openMeteo: down, met: down, points: down, bright: down });
    const answer = await chain().service.forecast(DAKOTA);
    if (answer.ok) throw new Error("an answer");
    expect(answer.tried.map(({ provider }) => provider)).toEqual([
      "open-meteo",
      "nws",
      "met-norway",
      "bright-sky",
    ]);
  });
});

const FAULTS = {
  good: null,
  status500: down,
  status404: () => new HttpResponse("not here", { status: 404 }),
  limited: () =>
    HttpResponse.json({ error: true, reason: "Minutely API request limit exceeded." }, { status: 429 }),
  markup: () => new HttpResponse("<html><title>oops</title></html>", { status: 200 }),
  broken: () => new HttpResponse('{"hourly": {"time": [', { status: 200 }),
  empty: () => HttpResponse.json({}),
  nulls: () => HttpResponse.json({ hourly: null, properties: null, weather: null, sources: [] }),
  network: () => HttpResponse.error(),
  stale: () => HttpResponse.json(nwsBody("2026-06-29T05:00:00Z", 7)),
  /** Answered by the network of the run, which never does. */
  never: null,
} as const;
type Fault = keyof typeof FAULTS;
const fault = fc.constantFrom(...(Object.keys(FAULTS) as Fault[]));

test("any order of faults gives an answer with its age, or a clear error, within the deadline", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.record({ openMeteo: fault, met: fault, points: fault, grid: fault, bright: fault }), {
        minLength: 1,
        maxLength: 3,
      }),
      async (visits) => {
        const { network, service } = chain();
        for (const visit of visits) {
          const answers = Object.fromEntries(
            Object.entries(visit).flatMap(([name, key]) => {
              const answer = key === "never" ? network.never : FAULTS[key];
              return answer === null ? [] : [[name, answer]];
            }),
          );
          mock.resetHandlers();
          serve(answers);
          const before = network.nowMs();
          const answer = await service.forecast(DAKOTA);
          expect(network.nowMs() - before).toBeLessThanOrEqual(ANSWER_LIMIT_MS);
          if (answer.ok) {
            expect(checkSeries(answer.series).issues).toEqual([]);
            expect(answer.series.fetchedUtc).not.toBeNull();
            expect(answer.series.hours.startUtc.length).toBeGreaterThan(24);
          } else {
            expect(answer.tried.length).toBeGreaterThan(0);
            for (const { failure } of answer.tried) expect(failure.message.length).toBeGreaterThan(3);
          }
          network.skip(2 * 3_600_000);
        }
      },
    ),
    { numRuns: 60 },
  );
}, 60_000);

describe("the archive, by local days", () => {
  test("a span of local days in a zone of half hours, whole hours around it", async () => {
    mock.use(
      http.get("https://archive.invalid/v1/archive", ({ request }) => {
        const query = new URL(request.url).searchParams;
        expect([query.get("start_date"), query.get("end_date")]).toEqual(["2024-04-30", "2024-05-02"]);
        return HttpResponse.json(openMeteoBody({ startUtc: "2024-04-30T00:00:00Z", labels: 72 }));
      }),
    );
    const asked = {
      latitude: 26.8,
      longitude: 80.9,
      timeZone: null,
      elevationM: null,
      from: "2024-05-01",
      to: "2024-05-02",
    };
    const answer = await chain().service.archive(asked);
    if (!answer.ok) throw new Error("no answer");
    const { startUtc } = answer.series.hours;
    // Local midnight is 18:30 UTC: the hour that holds it is the first, 18:00; the last holds the midnight two days on.
    expect(startUtc[0]).toBe("2024-04-30T18:00:00Z");
    expect(startUtc.at(-1)).toBe("2024-05-02T18:00:00Z");
    expect(answer.series.origin).toBe("archive");
  });
});
